-- What was broken. Rows that belong to a student carry student_id, and their
-- foreign keys carry it along, so that no row can point at another student's.

-- +goose Up
create table break_set (
    club_id       uuid not null references club (id),
    id            uuid not null, -- made by the phone
    student_id    uuid not null,
    assignment_id uuid,
    drill_id      uuid, -- null: taken over from a break log
    table_id      uuid not null,
    setup_id      uuid not null,
    name          text not null check (char_length(btrim(name)) between 1 and 120),
    planned       int  not null check (planned >= 1),
    started_at    timestamptz not null,
    closed_at     timestamptz,
    revision      int  not null default 0 check (revision >= 0), -- counts changes to its breaks
    created_at    timestamptz not null default now(),
    primary key (club_id, id),
    unique (club_id, id, student_id),
    unique (club_id, student_id, name),
    foreign key (club_id, student_id) references person (club_id, id),
    foreign key (club_id, assignment_id) references assignment (club_id, id),
    foreign key (club_id, drill_id) references drill (club_id, id),
    foreign key (club_id, table_id) references pool_table (club_id, id),
    foreign key (club_id, setup_id) references setup (club_id, id),
    check (assignment_id is null or drill_id is not null)
);
create index break_set_student on break_set (club_id, student_id, started_at);
create index break_set_assignment on break_set (club_id, assignment_id);
create index break_set_drill on break_set (club_id, drill_id);
create index break_set_table on break_set (club_id, table_id);

-- An empty word and a null number mean "not observed".
create table break (
    club_id       uuid not null,
    id            uuid not null, -- made by the phone
    set_id        uuid not null,
    student_id    uuid not null,
    number        int  not null check (number >= 1),
    at            timestamptz,
    speed         float8 check (speed > 0 and speed <= 40),
    cue_how       text not null check (cue_how in ('stopped', 'scratch', 'off-table')),
    cue_x         float8 check (cue_x between -25 and 25),
    cue_y         float8 check (cue_y between 0 and 100),
    cue_pocket    text not null default '' check (cue_pocket in
                  ('', 'head-left', 'head-right', 'side-left', 'side-right', 'foot-left', 'foot-right')),
    wing_miss     text not null default '' check (wing_miss in
                  ('', 'side-rail', 'foot-rail', 'kissed', 'jaws', 'unknown')),
    cue_path      text not null default '' check (cue_path in
                  ('', 'back', 'head-rail', 'forward', 'hit', 'unknown')),
    rails         int check (rails between 0 and 15),
    past_string   int check (past_string between 0 and 15),
    shot          text not null default '' check (shot in ('', 'open', 'hard', 'none')),
    ran_out       text not null default '' check (ran_out in ('', 'yes', 'no')),
    note          text not null default '' check (octet_length(note) <= 2000),
    balls         jsonb not null default '[]' check (jsonb_typeof(balls) = 'array'), -- [{ball, fate, pocket, x, y}]
    revision      int  not null check (revision >= 1), -- made by the phone
    deleted_at    timestamptz,
    delete_reason text not null default '' check (char_length(delete_reason) <= 200),
    edited_by     uuid, -- the coach who changed it last; null: the student
    created_at    timestamptz not null default now(),
    updated_at    timestamptz not null default now(),
    primary key (club_id, id),
    foreign key (club_id, set_id, student_id) references break_set (club_id, id, student_id),
    foreign key (club_id, edited_by) references person (club_id, id),
    check ((cue_how = 'stopped') = (cue_x is not null and cue_y is not null)),
    check ((cue_how = 'scratch') = (cue_pocket <> '')),
    check (deleted_at is not null or delete_reason = '')
);
create unique index break_number on break (club_id, set_id, number) where deleted_at is null;
create index break_student on break (club_id, student_id);

-- +goose Down
drop table break, break_set;
