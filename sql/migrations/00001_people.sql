-- Who there is: clubs, their people, and what they are signed in with.
-- Ids are made by the program (UUID version 7). Everything a club owns has
-- club_id first in its key, and foreign keys carry it along, so that no row can
-- point into another club.

-- +goose Up
create table club (
    id         uuid primary key,
    name       text not null check (char_length(btrim(name)) between 1 and 120),
    zone       text not null default 'UTC' check (zone <> ''), -- IANA name, for due days
    created_at timestamptz not null default now()
);

create table person (
    club_id     uuid not null references club (id),
    id          uuid not null,
    role        text not null check (role in ('coach', 'student')),
    name        text not null check (char_length(btrim(name)) between 1 and 120),
    side        text check (side in ('left', 'right')), -- null: not known yet
    login       text check (char_length(login) between 1 and 200 and login = btrim(login)),
    secret_hash text check (secret_hash like '$argon2id$%'),
    code        text check (code ~ '^[2-9BCDFGHJKMNPQRSTVWXZ]{8}$'), -- as package account makes them
    joined_at   timestamptz not null default now(),
    archived_at timestamptz,
    primary key (club_id, id),
    unique (id),
    check ((role = 'coach') = (login is not null)),
    check (role = 'student' or (code is null and side is null))
);
create unique index person_login on person (lower(login));
create unique index person_code on person (code);
create index person_name on person (club_id, role, lower(name));

create table session (
    token_hash   bytea primary key check (octet_length(token_hash) = 32),
    club_id      uuid not null,
    person_id    uuid not null,
    created_at   timestamptz not null default now(),
    last_seen_at timestamptz not null default now(),
    expires_at   timestamptz not null,
    revoked_at   timestamptz,
    foreign key (club_id, person_id) references person (club_id, id),
    check (expires_at > created_at)
);
create index session_person on session (club_id, person_id);

-- The link that sets up a club, valid once.
create table first_run (
    token_hash bytea primary key check (octet_length(token_hash) = 32),
    created_at timestamptz not null default now()
);

create table class (
    club_id     uuid not null references club (id),
    id          uuid not null,
    name        text not null check (char_length(btrim(name)) between 1 and 120),
    created_at  timestamptz not null default now(),
    archived_at timestamptz,
    primary key (club_id, id)
);

create table class_member (
    club_id    uuid not null,
    class_id   uuid not null,
    student_id uuid not null,
    joined_at  timestamptz not null default now(),
    primary key (club_id, class_id, student_id),
    foreign key (club_id, class_id) references class (club_id, id),
    foreign key (club_id, student_id) references person (club_id, id)
);
create index class_member_student on class_member (club_id, student_id);

-- +goose Down
drop table class_member, class, first_run, session, person, club;
