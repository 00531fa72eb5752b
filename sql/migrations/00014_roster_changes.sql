-- What a coach did to many students at once, so that it can be undone, and what
-- a coach notes about a student for nobody else.

-- +goose Up
create table roster_change (
    club_id   uuid not null references club (id),
    id        uuid not null,
    kind      text not null check (kind in ('side', 'class in', 'class out', 'archive', 'restore')),
    side      text check (side in ('left', 'right')), -- of 'side'; null: not known
    class_id  uuid,
    made_by   uuid not null,
    made_at   timestamptz not null default now(),
    undone_at timestamptz,
    primary key (club_id, id),
    foreign key (club_id, made_by) references person (club_id, id),
    foreign key (club_id, class_id) references class (club_id, id),
    check ((kind in ('class in', 'class out')) = (class_id is not null)),
    check (kind = 'side' or side is null)
);

-- Whom it really changed: who had that side already is not among them.
create table roster_change_student (
    club_id     uuid not null,
    change_id   uuid not null,
    student_id  uuid not null,
    side_before text check (side_before in ('left', 'right')),
    primary key (club_id, change_id, student_id),
    foreign key (club_id, change_id) references roster_change (club_id, id),
    foreign key (club_id, student_id) references person (club_id, id)
);
create index roster_change_student_of on roster_change_student (club_id, student_id);

-- One note of each coach on each student.
create table student_note (
    club_id    uuid not null,
    student_id uuid not null,
    coach_id   uuid not null,
    body       text not null check (char_length(body) between 1 and 4000),
    updated_at timestamptz not null default now(),
    primary key (club_id, student_id, coach_id),
    foreign key (club_id, student_id) references person (club_id, id),
    foreign key (club_id, coach_id) references person (club_id, id)
);
create index student_note_coach on student_note (club_id, coach_id);

-- +goose StatementBegin
do $$
declare name text;
begin
    foreach name in array array['roster_change', 'roster_change_student', 'student_note'] loop
        execute format('alter table %I enable row level security', name);
        execute format('alter table %I force row level security', name);
        execute format('create policy keeper on %I to current_user using (true) with check (true)', name);
    end loop;
end $$;
-- +goose StatementEnd

create policy read on roster_change for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
create policy add on roster_change for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()) and made_by = (select wall.person()));
create policy change on roster_change for update to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert (club_id, id, kind, side, class_id, made_by), update (undone_at) on roster_change to breakwright_app;

create policy read on roster_change_student for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
create policy add on roster_change_student for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert on roster_change_student to breakwright_app;

-- A note is its coach's alone: no student reads it, and no other coach.
create policy read on student_note for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()) and coach_id = (select wall.person()));
create policy add on student_note for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()) and coach_id = (select wall.person()));
create policy change on student_note for update to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()) and coach_id = (select wall.person()));
create policy remove on student_note for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()) and coach_id = (select wall.person()));
grant select, insert (club_id, student_id, coach_id, body), update (body, updated_at), delete on student_note to breakwright_app;

-- +goose Down
drop table student_note, roster_change_student, roster_change;
