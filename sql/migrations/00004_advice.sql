-- What was said about a set: the advice as it was given, the one change it
-- proposed and what became of it, and the talk between student and coach.

-- +goose Up
create table advice (
    club_id       uuid not null,
    set_id        uuid not null,
    student_id    uuid not null,
    verdict       text not null check (verdict <> ''),
    advice        jsonb not null,
    rules_version text not null check (rules_version <> ''),
    created_at    timestamptz not null default now(),
    primary key (club_id, set_id),
    foreign key (club_id, set_id, student_id) references break_set (club_id, id, student_id)
);
create index advice_student on advice (club_id, student_id);

-- proposed → approved, changed or declined (the coach decides) → in trial (the
-- first set under it has started) → helped, no difference or hurt.
create table prescription (
    club_id          uuid not null,
    id               uuid not null,
    set_id           uuid not null,
    student_id       uuid not null,
    rule             text not null check (rule <> ''),
    variable         text not null check (variable <> ''),
    from_value       text not null,
    to_value         text not null,
    unit             text not null default '',
    reason           text not null check (reason <> ''),
    expect           text not null default '',
    caution          text not null default '',
    from_setup_id    uuid not null,
    to_setup_id      uuid not null,
    state            text not null default 'proposed' check (state in
                     ('proposed', 'approved', 'changed', 'declined', 'in trial', 'helped', 'no difference', 'hurt')),
    decision         text check (decision in ('approved', 'changed', 'declined')),
    decided_by       uuid,
    decided_at       timestamptz,
    decision_note    text not null default '' check (char_length(decision_note) <= 2000),
    decided_setup_id uuid,
    created_at       timestamptz not null default now(),
    superseded_at    timestamptz, -- a newer proposal came before this one was decided
    primary key (club_id, id),
    unique (club_id, set_id),
    foreign key (club_id, set_id, student_id) references break_set (club_id, id, student_id),
    foreign key (club_id, from_setup_id) references setup (club_id, id),
    foreign key (club_id, to_setup_id) references setup (club_id, id),
    foreign key (club_id, decided_setup_id) references setup (club_id, id),
    foreign key (club_id, decided_by) references person (club_id, id),
    check ((state = 'proposed') = (decision is null)),
    check ((decision is null) = (decided_by is null) and (decision is null) = (decided_at is null)),
    check ((decision is not distinct from 'changed') = (decided_setup_id is not null)),
    check (state not in ('approved', 'changed', 'declined') or state = decision),
    check (state not in ('in trial', 'helped', 'no difference', 'hurt') or decision <> 'declined'),
    check (superseded_at is null or decision is null)
);
create index prescription_student on prescription (club_id, student_id, decided_at);
create index prescription_pending on prescription (club_id, created_at) where state = 'proposed' and superseded_at is null;

create table message (
    club_id            uuid not null,
    id                 uuid not null, -- made by the page, so that a second click adds nothing
    set_id             uuid not null,
    student_id         uuid not null,
    author_id          uuid not null,
    body               text not null check (char_length(btrim(body)) between 1 and 2000),
    created_at         timestamptz not null default now(),
    read_by_coach_at   timestamptz,
    read_by_student_at timestamptz,
    primary key (club_id, id),
    foreign key (club_id, set_id, student_id) references break_set (club_id, id, student_id),
    foreign key (club_id, author_id) references person (club_id, id)
);
create index message_set on message (club_id, set_id, created_at);
create index message_student on message (club_id, student_id);
create index message_waiting on message (club_id, created_at) where read_by_coach_at is null;

-- +goose Down
drop table message, prescription, advice;
