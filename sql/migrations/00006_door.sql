-- The door: what must be looked up before anyone is known, or must not be
-- readable at all (secrets, sessions). Each function runs as the keeper's role
-- with a fixed search path, and does one thing.

-- +goose Up
create schema door;
grant usage on schema door to breakwright_app;

-- What a sign-in needs to know of a person.
create type door.sign_in as (
    club_id uuid, person_id uuid, role text, name text, secret_hash text
);

-- +goose StatementBegin
create function door.has_club() returns boolean
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select exists (select from public.club)
$$;

create function door.set_first_run(token bytea) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.first_run;
    insert into public.first_run (token_hash) values (token);
$$;

create function door.has_first_run(token bytea) returns boolean
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select exists (select from public.first_run where token_hash = token)
$$;

-- Opens a club with its first coach. False: the link was used already.
create function door.open_club(token bytea, club uuid, club_name text, club_zone text,
    coach uuid, coach_name text, coach_login text, coach_secret text) returns boolean
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
begin
    delete from public.first_run where token_hash = token;
    if not found then
        return false;
    end if;
    insert into public.club (id, name, zone) values (club, club_name, club_zone);
    insert into public.person (club_id, id, role, name, login, secret_hash)
        values (club, coach, 'coach', coach_name, coach_login, coach_secret);
    return true;
end $$;

create function door.find_coach(wanted_login text) returns setof door.sign_in
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select club_id, id, role, name, coalesce(secret_hash, '') from public.person
    where lower(login) = lower(wanted_login) and archived_at is null
$$;

create function door.find_student(wanted_code text) returns setof door.sign_in
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select club_id, id, role, name, coalesce(secret_hash, '') from public.person
    where code = wanted_code and archived_at is null
$$;

-- False: there is no such person, or not any more.
create function door.start_session(token bytea, club uuid, person uuid, until timestamptz) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with started as (
        insert into public.session (token_hash, club_id, person_id, expires_at)
        select token, p.club_id, p.id, until from public.person p
        where p.club_id = club and p.id = person and p.archived_at is null
        returning 1
    )
    select exists (select from started)
$$;

create type door.guest as (
    club_id uuid, club_name text, zone text, person_id uuid, role text, name text, side text, expires_at timestamptz
);

-- Notes the visit at most once a minute, so that reading pages writes little.
create function door.find_session(token bytea) returns setof door.guest
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
begin
    update public.session set last_seen_at = now()
    where token_hash = token and revoked_at is null and last_seen_at < now() - interval '1 minute';
    return query
        select c.id, c.name, c.zone, p.id, p.role, p.name, coalesce(p.side, ''), s.expires_at
        from public.session s
        join public.person p on p.club_id = s.club_id and p.id = s.person_id
        join public.club c on c.id = s.club_id
        where s.token_hash = token and s.revoked_at is null and s.expires_at > now() and p.archived_at is null;
end $$;

create function door.revoke_session(token bytea) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now() where token_hash = token and revoked_at is null
$$;

-- The asker's own, or, for a coach, anyone's of the club.
create function door.revoke_sessions(person uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now()
    where club_id = (select wall.club()) and person_id = person and revoked_at is null
      and ((select wall.is_coach()) or person_id = (select wall.person()))
$$;

-- Only the asker's own.
create function door.set_secret(secret text) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with done as (
        update public.person set secret_hash = secret
        where club_id = (select wall.club()) and id = (select wall.person()) and archived_at is null
        returning 1
    )
    select exists (select from done)
$$;

-- The same for who has no secret yet: two who join with one code at once do not
-- both get in.
create function door.set_first_secret(secret text) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with done as (
        update public.person set secret_hash = secret
        where club_id = (select wall.club()) and id = (select wall.person()) and archived_at is null
            and secret_hash is null
        returning 1
    )
    select exists (select from done)
$$;

-- A student says which side they break from, where no coach has said yet.
create function door.choose_side(wanted text) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.person set side = wanted
    where club_id = (select wall.club()) and id = (select wall.person()) and role = 'student' and side is null
$$;

-- A coach takes a student's secret and sessions away.
create function door.forget_secret(student uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now()
    where club_id = (select wall.club()) and person_id = student and revoked_at is null and (select wall.is_coach());
    update public.person set secret_hash = null
    where club_id = (select wall.club()) and id = student and role = 'student' and (select wall.is_coach());
$$;

-- Forgets sessions that ended a month ago.
create function door.sweep_sessions() returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.session where coalesce(revoked_at, expires_at) < now() - interval '30 days'
$$;

-- The newest migration that was run: the program refuses a schema that is not its own.
create function wall.schema_version() returns bigint
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select max(version_id) from public.goose_db_version where is_applied
$$;
-- +goose StatementEnd

revoke all on all functions in schema door from public;
grant execute on all functions in schema door to breakwright_app;

-- +goose Down
drop function wall.schema_version();
drop schema door cascade;
