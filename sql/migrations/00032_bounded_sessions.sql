-- A person has the fifty sessions used last: a script that signs in again and again
-- fills no disk. Those that have ended go first.

-- +goose Up
-- +goose StatementBegin
create or replace function door.begin_session(token bytea, club uuid, person uuid, device_words text, at_time timestamptz, until timestamptz) returns boolean
language plpgsql security definer set search_path = pg_catalog, pg_temp as $$
begin
    insert into public.session (token_hash, club_id, person_id, device, created_at, last_seen_at, rotated_at, expires_at)
        select token, p.club_id, p.id, device_words, at_time, at_time, at_time, until from public.person p
        where p.club_id = club and p.id = person and p.archived_at is null;
    if not found then
        return false;
    end if;
    delete from public.session s where s.id in (
        select o.id from public.session o where o.club_id = club and o.person_id = person
        order by o.token_hash = token desc, o.revoked_at is null desc, o.last_seen_at desc, o.id offset 50);
    return true;
end $$;
-- +goose StatementEnd

-- +goose Down
-- +goose StatementBegin
create or replace function door.begin_session(token bytea, club uuid, person uuid, device_words text, at_time timestamptz, until timestamptz) returns boolean
language sql security definer set search_path = pg_catalog, pg_temp as $$
    with started as (
        insert into public.session (token_hash, club_id, person_id, device, created_at, last_seen_at, rotated_at, expires_at)
        select token, p.club_id, p.id, device_words, at_time, at_time, at_time, until from public.person p
        where p.club_id = club and p.id = person and p.archived_at is null
        returning 1
    )
    select exists (select from started)
$$;
-- +goose StatementEnd
