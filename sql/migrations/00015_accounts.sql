-- Long: one subject, its tables and the functions of the door that belong to it.
--
-- Accounts made whole: tries are counted here, so that all processes share
-- them; devices that signed in before are known; sessions have ids, slide and
-- change their token; a coach may have a second step and invites others; what
-- a club and a person chose is kept.

-- +goose Up
alter table club add column units text not null default 'inches' check (units in ('inches', 'centimetres'));
grant update (units) on club to breakwright_app;

alter table person add column theme text not null default '' check (theme in ('', 'light', 'dark')); -- empty: as the device has it
alter table person add column code_made_at timestamptz not null default now();
grant select (theme, code_made_at), update (code_made_at) on person to breakwright_app;

-- A session is named by its id when it is listed, and found by its token. The
-- token before the present one goes on for a moment: an answer may be lost.
alter table session add column id uuid not null default gen_random_uuid();
alter table session add column device text not null default '' check (char_length(device) <= 80);
alter table session add column previous_hash bytea check (octet_length(previous_hash) = 32);
alter table session add column rotated_at timestamptz not null default now();
create unique index session_id on session (id);
create index session_previous on session (previous_hash) where previous_hash is not null;
update session set expires_at = created_at + interval '180 days' where revoked_at is null and expires_at > now();

-- Wrong secrets of a person, tried on devices that are not known.
create table sign_in_guard (
    club_id    uuid not null,
    person_id  uuid not null,
    wrong      int  not null check (wrong >= 0),
    since      timestamptz not null, -- when this count began
    locked_at  timestamptz,
    primary key (club_id, person_id),
    foreign key (club_id, person_id) references person (club_id, id)
);
create index sign_in_guard_locked on sign_in_guard (club_id, locked_at) where locked_at is not null;

-- A device on which a person has signed in: strangers' tries do not lock it out.
create table known_device (
    club_id    uuid not null,
    person_id  uuid not null,
    token_hash bytea not null check (octet_length(token_hash) = 32),
    used_at    timestamptz not null,
    wrong      int not null default 0 check (wrong >= 0), -- since it was last right
    primary key (club_id, person_id, token_hash),
    foreign key (club_id, person_id) references person (club_id, id)
);

-- Wrong tries of networks, in a fixed number of buckets that leak: however many
-- networks try, there are never more rows.
create table try_bucket (
    bucket int primary key check (bucket between 0 and 65535),
    tries  float8 not null check (tries >= 0),
    at     timestamptz not null
);

-- The second step of signing in (RFC 6238), and the codes for who has lost it.
create table second_step (
    club_id      uuid not null,
    person_id    uuid not null,
    secret       bytea not null check (octet_length(secret) between 16 and 64),
    confirmed_at timestamptz, -- null: begun, and not yet asked for
    last_step    bigint not null default 0, -- a code is good once
    primary key (club_id, person_id),
    foreign key (club_id, person_id) references person (club_id, id)
);
create table recovery_code (
    club_id   uuid not null,
    person_id uuid not null,
    code_hash bytea not null check (octet_length(code_hash) = 32),
    primary key (club_id, person_id, code_hash),
    foreign key (club_id, person_id) references person (club_id, id)
);

-- A link with which somebody becomes a coach of the club, once.
create table coach_invite (
    club_id    uuid not null,
    token_hash bytea not null check (octet_length(token_hash) = 32),
    invited_by uuid not null,
    created_at timestamptz not null default now(),
    expires_at timestamptz not null,
    primary key (club_id, token_hash),
    unique (token_hash),
    foreign key (club_id, invited_by) references person (club_id, id)
);

-- Links that set up a further club stand beside the first one and end.
alter table first_run add column expires_at timestamptz;

-- +goose StatementBegin
do $$
declare name text;
begin
    foreach name in array array['sign_in_guard', 'known_device', 'try_bucket', 'second_step', 'recovery_code', 'coach_invite']
    loop
        execute format('alter table %I enable row level security', name);
        execute format('alter table %I force row level security', name);
        execute format('create policy keeper on %I to current_user using (true) with check (true)', name);
    end loop;
end $$;
-- +goose StatementEnd

-- known_device, try_bucket, second_step, recovery_code: only through the door.
create policy read on sign_in_guard for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select on sign_in_guard to breakwright_app;

create policy read on coach_invite for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
create policy add on coach_invite for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()) and invited_by = (select wall.person()));
create policy remove on coach_invite for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert (club_id, token_hash, invited_by, expires_at), delete on coach_invite to breakwright_app;

-- +goose StatementBegin
create or replace function door.has_first_run(token bytea) returns boolean
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select exists (select from public.first_run where token_hash = token and coalesce(expires_at > now(), true))
$$;

create or replace function door.open_club(token bytea, club uuid, club_name text, club_zone text,
    coach uuid, coach_name text, coach_login text, coach_secret text) returns boolean
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
begin
    delete from public.first_run where token_hash = token and coalesce(expires_at > now(), true);
    if not found then
        return false;
    end if;
    insert into public.club (id, name, zone) values (club, club_name, club_zone);
    insert into public.person (club_id, id, role, name, login, secret_hash)
        values (club, coach, 'coach', coach_name, coach_login, coach_secret);
    return true;
end $$;

-- A link for a further club; those that ended are forgotten.
create function door.add_first_run(token bytea, until timestamptz) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.first_run where expires_at < now();
    insert into public.first_run (token_hash, expires_at) values (token, until);
$$;

create function door.find_by_login(wanted_login text)
returns table (club_id uuid, person_id uuid, role text, name text, secret_hash text, code_made_at timestamptz, second_step boolean)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select p.club_id, p.id, p.role, p.name, coalesce(p.secret_hash, ''), p.code_made_at,
        exists (select from public.second_step s where s.club_id = p.club_id and s.person_id = p.id and s.confirmed_at is not null)
    from public.person p where lower(p.login) = lower(wanted_login) and p.archived_at is null
$$;

create function door.find_by_code(wanted_code text)
returns table (club_id uuid, person_id uuid, role text, name text, secret_hash text, code_made_at timestamptz, second_step boolean)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select p.club_id, p.id, p.role, p.name, coalesce(p.secret_hash, ''), p.code_made_at, false
    from public.person p where p.code = wanted_code and p.archived_at is null
$$;

-- Takes a try from a network's bucket, which holds most and regains per_second.
create function door.take_network_try(wanted int, most float8, per_second float8, at_time timestamptz) returns boolean
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare level float8;
begin
    insert into public.try_bucket (bucket, tries, at) values (wanted, 0, at_time) on conflict do nothing;
    select greatest(0, b.tries - per_second * greatest(0, extract(epoch from at_time - b.at))) into level
        from public.try_bucket b where b.bucket = wanted for update;
    if level + 1 > most then
        return false;
    end if;
    update public.try_bucket set tries = level + 1, at = greatest(at, at_time) where bucket = wanted;
    return true;
end $$;

create function door.return_network_try(wanted int) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.try_bucket set tries = greatest(0, tries - 1) where bucket = wanted
$$;

-- Takes a try at a person's secret: 'device' on a device that is known, which
-- has most_device wrong ones; else 'stranger', of which there are most_stranger
-- in a window; else 'locked'. A student's lock is for a coach to open, a
-- coach's opens after the window.
create function door.take_try(club uuid, person uuid, device bytea, at_time timestamptz,
    most_device int, most_stranger int, time_window interval, opens_itself boolean) returns text
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare guard record;
begin
    update public.known_device d set wrong = d.wrong + 1
        where d.club_id = club and d.person_id = person and d.token_hash = device and d.wrong < most_device;
    if found then
        return 'device';
    end if;
    delete from public.known_device d where d.club_id = club and d.person_id = person and d.token_hash = device;
    insert into public.sign_in_guard (club_id, person_id, wrong, since)
        values (club, person, 0, at_time) on conflict do nothing;
    select g.* into guard from public.sign_in_guard g where g.club_id = club and g.person_id = person for update;
    if guard.locked_at is not null and not (opens_itself and guard.locked_at <= at_time - time_window) then
        return 'locked';
    end if;
    if guard.locked_at is not null or guard.since <= at_time - time_window then
        guard.wrong := 0;
        guard.since := at_time;
    end if;
    update public.sign_in_guard g set wrong = guard.wrong + 1, since = guard.since,
            locked_at = case when guard.wrong + 1 >= most_stranger then at_time end
        where g.club_id = club and g.person_id = person;
    return 'stranger';
end $$;

create function door.return_try(club uuid, person uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.sign_in_guard g set wrong = greatest(0, g.wrong - 1), locked_at = null
    where g.club_id = club and g.person_id = person
$$;

-- The try was right: it is given back, and the device is known from now on. A
-- person has the ten devices used last.
create function door.settle_try(club uuid, person uuid, device bytea, at_time timestamptz, how text) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.sign_in_guard g set wrong = greatest(0, g.wrong - 1), locked_at = null
        where how = 'stranger' and g.club_id = club and g.person_id = person;
    insert into public.known_device as d (club_id, person_id, token_hash, used_at) values (club, person, device, at_time)
        on conflict (club_id, person_id, token_hash) do update set used_at = excluded.used_at, wrong = 0;
    delete from public.known_device d where d.club_id = club and d.person_id = person and d.token_hash in (
        select o.token_hash from public.known_device o where o.club_id = club and o.person_id = person
        order by o.used_at desc, o.token_hash offset 10);
$$;

-- A coach opens the lock of anyone of the club.
create function door.free_person(person uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.sign_in_guard
    where club_id = (select wall.club()) and person_id = person and (select wall.is_coach())
$$;

-- A coach takes a student's secret, sessions and devices away.
create or replace function door.forget_secret(student uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now()
    where club_id = (select wall.club()) and person_id = student and revoked_at is null and (select wall.is_coach());
    delete from public.known_device
    where club_id = (select wall.club()) and person_id = student and (select wall.is_coach());
    delete from public.sign_in_guard
    where club_id = (select wall.club()) and person_id = student and (select wall.is_coach());
    update public.person set secret_hash = null
    where club_id = (select wall.club()) and id = student and role = 'student' and (select wall.is_coach());
$$;

-- False: there is no such person, or not any more.
create function door.begin_session(token bytea, club uuid, person uuid, device_words text, at_time timestamptz, until timestamptz) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with started as (
        insert into public.session (token_hash, club_id, person_id, device, created_at, last_seen_at, rotated_at, expires_at)
        select token, p.club_id, p.id, device_words, at_time, at_time, at_time, until from public.person p
        where p.club_id = club and p.id = person and p.archived_at is null
        returning 1
    )
    select exists (select from started)
$$;

-- Notes the visit at most once a minute, so that reading pages writes little.
-- Once the new token of a session has been seen, the one before ends.
create function door.visit_session(token bytea, at_time timestamptz, idle interval)
returns table (club_id uuid, club_name text, zone text, units text, person_id uuid, role text, name text, side text, theme text,
    session_id uuid, rotated_at timestamptz, expires_at timestamptz)
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare seen record;
begin
    select s.* into seen from public.session s
    where (s.token_hash = token or s.previous_hash = token) and s.revoked_at is null
        and s.expires_at > at_time and s.last_seen_at > at_time - idle;
    if not found then
        return;
    end if;
    if seen.last_seen_at < at_time - interval '1 minute' or seen.previous_hash is not null
            and seen.token_hash = token and seen.rotated_at < at_time - interval '1 minute' then
        update public.session s set last_seen_at = greatest(s.last_seen_at, at_time),
                previous_hash = case when s.token_hash = token and s.rotated_at < at_time - interval '1 minute' then null else s.previous_hash end
            where s.id = seen.id and s.revoked_at is null;
    end if;
    return query
        select c.id, c.name, c.zone, c.units, p.id, p.role, p.name, coalesce(p.side, ''), p.theme,
            seen.id, seen.rotated_at, seen.expires_at
        from public.person p join public.club c on c.id = p.club_id
        where p.club_id = seen.club_id and p.id = seen.person_id and p.archived_at is null;
end $$;

-- False: another request has just done it, or the session is over.
create function door.rotate_session(token bytea, fresh bytea, at_time timestamptz, at_least interval) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with turned as (
        update public.session set previous_hash = token, token_hash = fresh, rotated_at = at_time
        where (token_hash = token or previous_hash = token) and revoked_at is null and rotated_at <= at_time - at_least
        returning 1
    )
    select exists (select from turned)
$$;

create or replace function door.revoke_session(token bytea) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now() where (token_hash = token or previous_hash = token) and revoked_at is null
$$;

-- The asker's own that go on.
create function door.own_sessions(at_time timestamptz, idle interval)
returns table (id uuid, device text, created_at timestamptz, last_seen_at timestamptz, expires_at timestamptz)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select s.id, s.device, s.created_at, s.last_seen_at, s.expires_at from public.session s
    where s.club_id = (select wall.club()) and s.person_id = (select wall.person()) and s.revoked_at is null
        and s.expires_at > at_time and s.last_seen_at > at_time - idle
    order by s.last_seen_at desc, s.id
$$;

create function door.end_own_session(session_id uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now()
    where club_id = (select wall.club()) and person_id = (select wall.person()) and id = session_id and revoked_at is null
$$;

-- All but one of the asker's own, and what other devices are known.
create function door.end_other_sessions(kept uuid, device bytea) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now()
    where club_id = (select wall.club()) and person_id = (select wall.person()) and id <> kept and revoked_at is null;
    delete from public.known_device
    where club_id = (select wall.club()) and person_id = (select wall.person()) and token_hash <> device;
$$;

create function door.own_secret() returns text
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select coalesce(secret_hash, '') from public.person
    where club_id = (select wall.club()) and id = (select wall.person()) and archived_at is null
$$;

create function door.set_theme(wanted text) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.person set theme = wanted where club_id = (select wall.club()) and id = (select wall.person())
$$;

-- The second step. Only a coach has one; a begun one replaces one begun before,
-- never one that is in use.
create function door.begin_second_step(fresh bytea) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with begun as (
        insert into public.second_step as s (club_id, person_id, secret)
        select p.club_id, p.id, fresh from public.person p
        where p.club_id = (select wall.club()) and p.id = (select wall.person()) and p.role = 'coach'
        on conflict (club_id, person_id) do update set secret = excluded.secret where s.confirmed_at is null
        returning 1
    )
    select exists (select from begun)
$$;

create function door.own_second_step()
returns table (secret bytea, confirmed boolean, recovery_codes int)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select s.secret, s.confirmed_at is not null, (select count(*)::int from public.recovery_code r
        where r.club_id = s.club_id and r.person_id = s.person_id)
    from public.second_step s where s.club_id = (select wall.club()) and s.person_id = (select wall.person())
$$;

create function door.confirm_second_step(step bigint, codes bytea[]) returns boolean
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
begin
    update public.second_step s set confirmed_at = now(), last_step = step
        where s.club_id = (select wall.club()) and s.person_id = (select wall.person()) and s.confirmed_at is null;
    if not found then
        return false;
    end if;
    insert into public.recovery_code (club_id, person_id, code_hash)
        select (select wall.club()), (select wall.person()), unnest(codes);
    return true;
end $$;

create function door.drop_second_step() returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.recovery_code where club_id = (select wall.club()) and person_id = (select wall.person());
    delete from public.second_step where club_id = (select wall.club()) and person_id = (select wall.person());
$$;

-- The secret of whoever the passphrase was right for; empty when there is none.
create function door.find_second_step(club uuid, person uuid) returns bytea
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select s.secret from public.second_step s
    where s.club_id = club and s.person_id = person and s.confirmed_at is not null
$$;

-- False: this code, or a later one, was used already.
create function door.use_second_step(club uuid, person uuid, step bigint) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with used as (
        update public.second_step s set last_step = step
        where s.club_id = club and s.person_id = person and s.confirmed_at is not null and s.last_step < step
        returning 1
    )
    select exists (select from used)
$$;

create function door.use_recovery_code(club uuid, person uuid, code bytea) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with used as (
        delete from public.recovery_code r where r.club_id = club and r.person_id = person and r.code_hash = code
        returning 1
    )
    select exists (select from used)
$$;

create function door.find_invite(token bytea) returns table (club_name text, invited_by text)
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select c.name, p.name from public.coach_invite i
    join public.club c on c.id = i.club_id
    join public.person p on p.club_id = i.club_id and p.id = i.invited_by
    where i.token_hash = token and i.expires_at > now()
$$;

-- Gives the club; nothing when the link is not good any more.
create function door.accept_invite(token bytea, coach uuid, coach_name text, coach_login text, coach_secret text) returns uuid
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
declare club uuid;
begin
    delete from public.coach_invite i where i.token_hash = token and i.expires_at > now() returning i.club_id into club;
    if club is not null then
        insert into public.person (club_id, id, role, name, login, secret_hash)
            values (club, coach, 'coach', coach_name, coach_login, coach_secret);
    end if;
    return club;
end $$;

-- Forgets what is over: sessions a month after their end, devices not used for a
-- year, links that ended, counts and buckets that have run empty.
create function door.sweep_accounts() returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.session where coalesce(revoked_at, least(expires_at, last_seen_at + interval '30 days')) < now() - interval '30 days';
    delete from public.known_device where used_at < now() - interval '1 year';
    delete from public.coach_invite where expires_at < now();
    delete from public.first_run where expires_at < now();
    delete from public.sign_in_guard where locked_at is null and since < now() - interval '30 days';
    delete from public.try_bucket where at < now() - interval '2 days';
$$;
-- +goose StatementEnd

revoke all on all functions in schema door from public;
grant execute on all functions in schema door to breakwright_app;

-- +goose Down
drop function door.sweep_accounts(), door.accept_invite(bytea, uuid, text, text, text), door.find_invite(bytea),
    door.use_recovery_code(uuid, uuid, bytea), door.use_second_step(uuid, uuid, bigint), door.find_second_step(uuid, uuid),
    door.drop_second_step(), door.confirm_second_step(bigint, bytea[]), door.own_second_step(), door.begin_second_step(bytea),
    door.set_theme(text), door.own_secret(), door.end_other_sessions(uuid, bytea), door.end_own_session(uuid),
    door.own_sessions(timestamptz, interval), door.rotate_session(bytea, bytea, timestamptz, interval),
    door.visit_session(bytea, timestamptz, interval), door.begin_session(bytea, uuid, uuid, text, timestamptz, timestamptz),
    door.free_person(uuid), door.settle_try(uuid, uuid, bytea, timestamptz, text),
    door.take_try(uuid, uuid, bytea, timestamptz, int, int, interval, boolean),
    door.return_try(uuid, uuid), door.return_network_try(int), door.take_network_try(int, float8, float8, timestamptz),
    door.find_by_code(text), door.find_by_login(text), door.add_first_run(bytea, timestamptz);
-- +goose StatementBegin
create or replace function door.has_first_run(token bytea) returns boolean
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select exists (select from public.first_run where token_hash = token)
$$;
create or replace function door.open_club(token bytea, club uuid, club_name text, club_zone text,
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
create or replace function door.revoke_session(token bytea) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now() where token_hash = token and revoked_at is null
$$;
create or replace function door.forget_secret(student uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.session set revoked_at = now()
    where club_id = (select wall.club()) and person_id = student and revoked_at is null and (select wall.is_coach());
    update public.person set secret_hash = null
    where club_id = (select wall.club()) and id = student and role = 'student' and (select wall.is_coach());
$$;
-- +goose StatementEnd
alter table first_run drop column expires_at;
drop table coach_invite, recovery_code, second_step, try_bucket, known_device, sign_in_guard;
drop index session_previous, session_id;
alter table session drop column rotated_at, drop column previous_hash, drop column device, drop column id;
alter table person drop column code_made_at, drop column theme;
alter table club drop column units;
