-- The two walls: between clubs, and between students. The program connects as
-- breakwright_app, which owns nothing and cannot step over them. Who is asking
-- stands in three settings, made at the start of every transaction:
--   app.club_id, app.person_id, app.role: coach, student, or adviser, which is
--   the program writing advice for the student app.person_id.
-- With no settings nothing is seen.
--
-- A table added later needs the same: row security enabled and forced, a
-- policy "keeper", policies for what may be read and written, and grants.

-- +goose Up
create schema wall;

create function wall.club() returns uuid language sql stable
    return nullif(current_setting('app.club_id', true), '')::uuid;
create function wall.person() returns uuid language sql stable
    return nullif(current_setting('app.person_id', true), '')::uuid;
create function wall.is_coach() returns boolean language sql stable
    return coalesce(current_setting('app.role', true) = 'coach', false);
create function wall.is_adviser() returns boolean language sql stable
    return coalesce(current_setting('app.role', true) = 'adviser', false);

grant usage on schema wall to breakwright_app;

-- The keeper's own role owns the tables: it migrates and backs them up.
-- +goose StatementBegin
do $$
declare name text;
begin
    foreach name in array array['club', 'person', 'session', 'first_run', 'class', 'class_member', 'pool_table',
        'setup', 'drill', 'assignment', 'assignment_student', 'break_set', 'break', 'advice', 'prescription', 'message']
    loop
        execute format('alter table %I enable row level security', name);
        execute format('alter table %I force row level security', name);
        execute format('create policy keeper on %I to current_user using (true) with check (true)', name);
    end loop;
end $$;
-- +goose StatementEnd

-- session and first_run: only through the door (the next migration).

create policy read on club for select to breakwright_app using (id = (select wall.club()));
create policy change on club for update to breakwright_app using (id = (select wall.club()) and (select wall.is_coach()));
grant select, update (name, zone) on club to breakwright_app;

-- A student sees only their own row. Nobody's secret is ever read from here.
create policy read on person for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or id = (select wall.person())));
create policy add on person for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()));
create policy change on person for update to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select (club_id, id, role, name, side, login, code, joined_at, archived_at),
      insert (club_id, id, role, name, side, login, secret_hash, code),
      update (name, side, code, archived_at) on person to breakwright_app;

create policy read on class_member for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on class_member for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()));
create policy remove on class_member for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert (club_id, class_id, student_id), delete on class_member to breakwright_app;

create policy read on class for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or exists
        (select from class_member m where m.club_id = class.club_id and m.class_id = class.id
            and m.student_id = (select wall.person()))));
create policy add on class for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()));
create policy change on class for update to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert (club_id, id, name), update (name, archived_at) on class to breakwright_app;

-- The club's tables and setups are everybody's to see.
create policy read on pool_table for select to breakwright_app using (club_id = (select wall.club()));
create policy add on pool_table for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()));
create policy change on pool_table for update to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert (club_id, id, name, venue, feet, corner_in, side_in, archived_at),
      update (name, venue, feet, corner_in, side_in, archived_at) on pool_table to breakwright_app;

create policy read on setup for select to breakwright_app using (club_id = (select wall.club()));
create policy add on setup for insert to breakwright_app
    with check (club_id = (select wall.club()) and ((select wall.is_coach()) or (select wall.is_adviser())));
grant select, insert on setup to breakwright_app;

-- A student sees the assignments that concern them, and the drills of these
-- and of their own sets.
create policy read on assignment_student for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on assignment_student for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert on assignment_student to breakwright_app;

create policy read on assignment for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach())
        or exists (select from assignment_student s where s.club_id = assignment.club_id
            and s.assignment_id = assignment.id and s.student_id = (select wall.person()))
        or exists (select from class_member m where m.club_id = assignment.club_id
            and m.class_id = assignment.class_id and m.student_id = (select wall.person()))));
create policy add on assignment for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()));
create policy change on assignment for update to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert (club_id, id, drill_id, class_id, due_on, note, created_by),
      update (due_on, note, ended_at) on assignment to breakwright_app;

create policy read on drill for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach())
        or exists (select from assignment a where a.club_id = drill.club_id and a.drill_id = drill.id)
        or exists (select from break_set s where s.club_id = drill.club_id and s.drill_id = drill.id
            and s.student_id = (select wall.person()))));
create policy add on drill for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()));
create policy change on drill for update to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert (club_id, id, lineage, replaces, name, feet, corner_in, side_in, setup_id, breaks,
          window_left, window_right, window_head, window_foot, target_wing, target_window, watch),
      update (name, feet, corner_in, side_in, setup_id, breaks,
          window_left, window_right, window_head, window_foot, target_wing, target_window, watch, archived_at)
    on drill to breakwright_app;

-- What a student recorded is theirs and their coaches'.
create policy read on break_set for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on break_set for insert to breakwright_app
    with check (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy change on break_set for update to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
grant select, insert (club_id, id, student_id, assignment_id, drill_id, table_id, setup_id, name, planned, started_at, closed_at),
      update (closed_at, revision) on break_set to breakwright_app;

create policy read on break for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on break for insert to breakwright_app
    with check (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy change on break for update to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
grant select, insert, update (number, at, speed, cue_how, cue_x, cue_y, cue_pocket, wing_miss, cue_path, rails,
          past_string, shot, ran_out, note, balls, revision, deleted_at, delete_reason, edited_by, updated_at)
    on break to breakwright_app;

-- Advice is the adviser's to write, its decision the coach's.
create policy read on advice for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on advice for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_adviser()) and student_id = (select wall.person()));
grant select, insert on advice to breakwright_app;

create policy read on prescription for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on prescription for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_adviser()) and student_id = (select wall.person()));
create policy change on prescription for update to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach())
        or ((select wall.is_adviser()) and student_id = (select wall.person()))));
grant select, insert (club_id, id, set_id, student_id, rule, variable, from_value, to_value, unit, reason, expect,
          caution, from_setup_id, to_setup_id),
      update (state, decision, decided_by, decided_at, decision_note, decided_setup_id, superseded_at)
    on prescription to breakwright_app;

create policy read on message for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on message for insert to breakwright_app
    with check (club_id = (select wall.club()) and author_id = (select wall.person())
        and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy change on message for update to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
grant select, insert (club_id, id, set_id, student_id, author_id, body, read_by_coach_at, read_by_student_at),
      update (read_by_coach_at, read_by_student_at) on message to breakwright_app;

-- +goose Down
-- +goose StatementBegin
do $$
declare wanted record;
begin
    for wanted in select schemaname, tablename, policyname from pg_policies where schemaname = 'public' loop
        execute format('drop policy %I on %I', wanted.policyname, wanted.tablename);
    end loop;
    for wanted in select relname from pg_class where relrowsecurity and relnamespace = 'public'::regnamespace loop
        execute format('alter table %I disable row level security', wanted.relname);
        execute format('alter table %I no force row level security', wanted.relname);
        execute format('revoke all on %I from breakwright_app', wanted.relname);
    end loop;
end $$;
-- +goose StatementEnd
drop schema wall cascade;
