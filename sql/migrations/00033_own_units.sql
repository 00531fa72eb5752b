-- A student reads lengths and speeds in units of their own, where they chose some: a
-- session has those of its person.

-- +goose Up
alter table person add column units text check (units in ('inches', 'centimetres')); -- null: as the club has them
grant select (units) on person to breakwright_app;

-- +goose StatementBegin
create or replace function door.visit_session(token bytea, at_time timestamptz, idle interval)
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
        select c.id, c.name, c.zone, coalesce(p.units, c.units), p.id, p.role, p.name, coalesce(p.side, ''), p.theme,
            seen.id, seen.rotated_at, seen.expires_at
        from public.person p join public.club c on c.id = p.club_id
        where p.club_id = seen.club_id and p.id = seen.person_id and p.archived_at is null;
end $$;
-- +goose StatementEnd

create function door.set_units(wanted text) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    update public.person set units = nullif(wanted, '') where club_id = (select wall.club()) and id = (select wall.person())
$$;

revoke all on function door.set_units(text) from public;
grant execute on function door.set_units(text) to breakwright_app;

-- +goose Down
-- +goose StatementBegin
create or replace function door.visit_session(token bytea, at_time timestamptz, idle interval)
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
-- +goose StatementEnd
drop function door.set_units(text);
alter table person drop column units;
