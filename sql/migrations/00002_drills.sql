-- What is practised: tables, setups, drills and who is to do them.
-- Lengths are inches from the cushions' noses, speeds miles an hour, tip and
-- spin fractions of the ball's radius, targets shares from 0 to 1.

-- +goose Up
create table pool_table (
    club_id     uuid not null references club (id),
    id          uuid not null,
    name        text not null check (char_length(btrim(name)) between 1 and 120),
    venue       text not null default '' check (char_length(venue) <= 120),
    feet        int  not null check (feet in (7, 8, 9)),
    corner_in   float8 not null check (corner_in between 3.5 and 6.5),
    side_in     float8 not null check (side_in between 3.5 and 6.5),
    created_at  timestamptz not null default now(),
    archived_at timestamptz,
    primary key (club_id, id)
);
create unique index pool_table_name on pool_table (club_id, venue, name) where archived_at is null;

-- A setup is a value: one row per distinct setup of a club, never changed.
create table setup (
    club_id uuid not null references club (id),
    id      uuid not null,
    game    text not null check (game in ('nine-ball', 'ten-ball', 'eight-ball')),
    spot    text not null check (spot in ('head', 'centre')),
    rack    text not null check (rack ~ '^[0-9]+(-[0-9]+)+$'), -- balls in slot order
    side    text not null check (side in ('left', 'right')),
    wing    text not null check (wing ~ '^[1-5](L|LC|C|RC|R)?$'),
    cue_x   float8 not null check (cue_x between -25 and 25),
    cue_y   float8 not null check (cue_y between 0 and 25),
    contact float8 not null check (contact between -2.25 and 2.25),
    tip     float8 not null check (tip between -1 and 1),
    spin    float8 not null check (spin between -1 and 1),
    speed   float8 check (speed > 0 and speed <= 40), -- null: the student's own
    primary key (club_id, id),
    unique nulls not distinct (club_id, game, spot, rack, side, wing, cue_x, cue_y, contact, tip, spin, speed)
);

-- A drill that was assigned is never changed: an edit makes a new row that
-- replaces it. lineage is the id of the first of such a row of drills.
create table drill (
    club_id       uuid not null references club (id),
    id            uuid not null,
    lineage       uuid not null,
    replaces      uuid,
    name          text not null check (char_length(btrim(name)) between 1 and 120),
    feet          int  not null check (feet in (7, 8, 9)),
    corner_in     float8 not null check (corner_in between 3.5 and 6.5),
    side_in       float8 not null check (side_in between 3.5 and 6.5),
    setup_id      uuid not null,
    breaks        int  not null check (breaks between 1 and 50),
    window_left   float8 not null,
    window_right  float8 not null,
    window_head   float8 not null,
    window_foot   float8 not null,
    target_wing   float8 not null check (target_wing > 0 and target_wing <= 1),
    target_window float8 not null check (target_window > 0 and target_window <= 1),
    watch         text not null default '' check (char_length(watch) <= 500),
    created_at    timestamptz not null default now(),
    archived_at   timestamptz,
    primary key (club_id, id),
    foreign key (club_id, setup_id) references setup (club_id, id),
    foreign key (club_id, replaces) references drill (club_id, id),
    foreign key (club_id, lineage) references drill (club_id, id),
    unique (club_id, replaces),
    check (window_left between -25 and window_right and window_right <= 25),
    check (window_head between 0 and window_foot and window_foot <= 100),
    check ((replaces is null) = (lineage = id))
);
create index drill_lineage on drill (club_id, lineage);

-- For a class, or for the students named in assignment_student.
create table assignment (
    club_id    uuid not null references club (id),
    id         uuid not null,
    drill_id   uuid not null,
    class_id   uuid,
    due_on     date,
    note       text not null default '' check (char_length(note) <= 2000),
    created_by uuid not null,
    created_at timestamptz not null default now(),
    ended_at   timestamptz,
    primary key (club_id, id),
    foreign key (club_id, drill_id) references drill (club_id, id),
    foreign key (club_id, class_id) references class (club_id, id),
    foreign key (club_id, created_by) references person (club_id, id)
);
create index assignment_drill on assignment (club_id, drill_id);
create index assignment_class on assignment (club_id, class_id);

create table assignment_student (
    club_id       uuid not null,
    assignment_id uuid not null,
    student_id    uuid not null,
    primary key (club_id, assignment_id, student_id),
    foreign key (club_id, assignment_id) references assignment (club_id, id),
    foreign key (club_id, student_id) references person (club_id, id)
);
create index assignment_student_student on assignment_student (club_id, student_id);

-- +goose Down
drop table assignment_student, assignment, drill, setup, pool_table;
