-- Privacy: who saw, changed, exported or erased what; everything that is kept of
-- a person as one document; and erasing a person or a club.
--
-- What belongs to a person is found in the catalogue: every table of the schema
-- public that has club_id and student_id (or, for accounts, person_id). So a
-- table added later is exported and erased too, without a line here.

-- +goose Up
-- One line for each day, person, act, place and whom it was about, so that it
-- grows with days and not with clicks. A place is a route of the program; zeros
-- stand for nobody.
create table audit_line (
    club_id   uuid not null references club (id),
    day       date not null,
    person_id uuid not null,
    act       text not null check (act in ('saw', 'changed', 'exported', 'erased')),
    place     text not null check (char_length(place) between 1 and 120),
    about_id  uuid not null,
    first_at  timestamptz not null default now(),
    last_at   timestamptz not null default now(),
    times     int not null default 1 check (times >= 1),
    primary key (club_id, day, person_id, act, place, about_id),
    foreign key (club_id, person_id) references person (club_id, id)
);
create index audit_line_newest on audit_line (club_id, last_at desc);
create index audit_line_about on audit_line (club_id, about_id, last_at desc);
create index audit_line_person on audit_line (club_id, person_id);

-- Hashes of the random tokens of sessions whose person was erased: a phone that
-- comes back with one is told to forget what it holds.
create table erased_session (
    token_hash bytea primary key check (octet_length(token_hash) = 32),
    erased_at  timestamptz not null default now()
);

-- +goose StatementBegin
do $$
declare name text;
begin
    foreach name in array array['audit_line', 'erased_session'] loop
        execute format('alter table %I enable row level security', name);
        execute format('alter table %I force row level security', name);
        execute format('create policy keeper on %I to current_user using (true) with check (true)', name);
    end loop;
end $$;
-- +goose StatementEnd

create policy read on audit_line for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select on audit_line to breakwright_app;

-- +goose StatementBegin
-- Writes a line in the name of the asker. A set or a change stands for its
-- student. What was only seen is written down once a day.
create function door.write_note(wanted_act text, wanted_place text, thing uuid) returns void
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare
    club uuid := wall.club();
    asker uuid := wall.person();
    about uuid := coalesce(
        (select s.student_id from public.break_set s where s.club_id = club and s.id = thing),
        (select r.student_id from public.prescription r where r.club_id = club and r.id = thing), thing);
    today date := (now() at time zone 'UTC')::date;
begin
    if not exists (select from public.person p where p.club_id = club and p.id = asker) or wanted_act = 'saw' and exists (
        select from public.audit_line a where a.club_id = club and a.day = today and a.person_id = asker
            and a.act = wanted_act and a.place = wanted_place and a.about_id = about) then
        return;
    end if;
    insert into public.audit_line as a (club_id, day, person_id, act, place, about_id)
        values (club, today, asker, wanted_act, wanted_place, about)
        on conflict (club_id, day, person_id, act, place, about_id) do update set last_at = now(), times = a.times + 1;
end $$;

-- What the functions of the door need of one another. The program's role has no
-- way into this schema.
create schema keeper;

-- When backups were made, so that the doctor can say how old the last one is.
-- Only the owner of the database reads and writes it.
create table keeper.backup_made (
    at    timestamptz primary key default now(),
    bytes bigint not null check (bytes > 0)
);

-- The columns by which a table says whose a row is.
create function keeper.tables_of_people() returns table (name text, owner_column text)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select c.relname::text, a.attname::text
    from pg_class c join pg_attribute a on a.attrelid = c.oid
    where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p') and a.attnum > 0 and not a.attisdropped
        and (a.attname in ('student_id', 'person_id') or c.relname = 'audit_line' and a.attname = 'about_id')
        and exists (select from pg_attribute k where k.attrelid = c.oid and k.attname = 'club_id' and not k.attisdropped)
    order by c.relname, a.attname
$$;

-- Deletes from tables what a condition finds, in whatever order their references
-- allow: one that is still referred to is tried again after the others.
create function keeper.delete_rows(tables text[], conditions text[], club uuid, whose uuid) returns void
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare
    left_over int[] := array(select generate_subscripts(tables, 1));
    still int[];
    i int;
begin
    while cardinality(left_over) > 0 loop
        still := '{}';
        foreach i in array left_over loop
            begin
                execute format('delete from public.%I where club_id = $1 and %s', tables[i], conditions[i]) using club, whose;
            exception when foreign_key_violation then
                still := still || i;
            end;
        end loop;
        if cardinality(still) = cardinality(left_over) then
            raise exception 'something still refers to rows of %', array(select tables[n] from unnest(still) n);
        end if;
        left_over := still;
    end loop;
end $$;

-- Remembers a person's tokens, so that their phones are told.
create function keeper.keep_erased_sessions(club uuid, whose uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    insert into public.erased_session (token_hash)
    select t from public.session s, unnest(array[s.token_hash, s.previous_hash]) t
    where s.club_id = club and (whose is null or s.person_id = whose) and t is not null
    on conflict do nothing
$$;

-- Erases a student with all that they recorded and all that was said of it, and
-- the files of the club's exports and imports, which may hold their name.
-- False: the asker is no coach of theirs, or there is no such student.
create function door.erase_student(student uuid) returns boolean
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare
    club uuid := wall.club();
    names text[];
    conditions text[];
begin
    perform from public.person p where p.club_id = club and p.id = student and p.role = 'student' and wall.is_coach() for update;
    if not found then
        return false;
    end if;
    perform keeper.keep_erased_sessions(club, student);
    delete from public.job j where j.club_id = club;
    select array_agg(name), array_agg(format('%I = $2', owner_column)) into names, conditions from keeper.tables_of_people();
    perform keeper.delete_rows(names, conditions, club, student);
    delete from public.roster_change r where r.club_id = club
        and not exists (select from public.roster_change_student s where s.club_id = club and s.change_id = r.id);
    delete from public.person p where p.club_id = club and p.id = student;
    return true;
end $$;

-- Erases a coach who was removed: name, login, secrets, notes, sessions and
-- files. What they decided stays, as that of a former coach.
create function door.erase_coach(coach uuid) returns boolean
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare club uuid := wall.club();
begin
    perform from public.person p where p.club_id = club and p.id = coach and p.role = 'coach'
        and p.archived_at is not null and wall.is_coach() for update;
    if not found then
        return false;
    end if;
    perform keeper.keep_erased_sessions(club, coach);
    perform keeper.delete_rows(
        array['recovery_code', 'second_step', 'known_device', 'sign_in_guard', 'session', 'student_note', 'coach_invite', 'job'],
        array['person_id = $2', 'person_id = $2', 'person_id = $2', 'person_id = $2', 'person_id = $2', 'coach_id = $2', 'invited_by = $2', 'asked_by = $2'],
        club, coach);
    update public.person p set name = 'A former coach', login = 'erased ' || p.id, secret_hash = null, theme = ''
        where p.club_id = club and p.id = coach;
    return true;
end $$;

-- Erases the asker's whole club. False: the asker is no coach.
create function door.erase_club() returns boolean
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare
    club uuid := wall.club();
    names text[];
begin
    perform from public.club c where c.id = club and wall.is_coach() for update;
    if not found then
        return false;
    end if;
    perform keeper.keep_erased_sessions(club, null);
    select array_agg(c.relname::text) into names from pg_class c
        where c.relnamespace = 'public'::regnamespace and c.relkind in ('r', 'p') and exists
            (select from pg_attribute a where a.attrelid = c.oid and a.attname = 'club_id' and not a.attisdropped);
    perform keeper.delete_rows(names, array_fill('$2::uuid is null'::text, array[cardinality(names)]), club, null);
    delete from public.club c where c.id = club;
    return true;
end $$;

-- Everything that is kept of a person, by table, but for secrets; and of the
-- coaches' private notes only the asker's own. For the person and for coaches.
create function door.everything_of(whose uuid) returns jsonb
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare
    club uuid := wall.club();
    everything jsonb;
    found_rows jsonb;
    t record;
begin
    select jsonb_build_object('person', jsonb_build_array(to_jsonb(p) - 'secret_hash')) into everything
        from public.person p where p.club_id = club and p.id = whose and (wall.is_coach() or p.id = wall.person());
    if everything is null then
        return null;
    end if;
    for t in select name, owner_column from keeper.tables_of_people() where owner_column <> 'about_id' loop
        execute format('select jsonb_agg(to_jsonb(r) - array[''secret'', ''token_hash'', ''previous_hash'', ''code_hash'']) from public.%I r
            where r.club_id = $1 and r.%I = $2 %s', t.name, t.owner_column,
            case when t.name = 'student_note' then 'and r.coach_id = $3' else 'and $3 is not null' end)
            into found_rows using club, whose, wall.person();
        everything := everything || jsonb_build_object(t.name, coalesce(found_rows, '[]'));
    end loop;
    return everything;
end $$;

create function door.was_erased(token bytea) returns boolean
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select exists (select from public.erased_session e where e.token_hash = token)
$$;

-- A year and a month of lines are kept; a phone that was away for longer than its
-- cookie lives has nothing to be told.
create function door.sweep_privacy() returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.audit_line where day < (now() - interval '396 days')::date;
    delete from public.erased_session where erased_at < now() - interval '200 days';
$$;
-- +goose StatementEnd

revoke all on all functions in schema door from public;
grant execute on function door.write_note(text, text, uuid), door.erase_student(uuid), door.erase_coach(uuid), door.erase_club(),
    door.everything_of(uuid), door.was_erased(bytea), door.sweep_privacy() to breakwright_app;

-- +goose Down
drop function door.sweep_privacy(), door.was_erased(bytea), door.everything_of(uuid), door.erase_club(), door.erase_coach(uuid),
    door.erase_student(uuid), door.write_note(text, text, uuid);
drop schema keeper cascade;
drop table erased_session, audit_line;
