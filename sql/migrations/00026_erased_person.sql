-- A phone is told of an erasure whenever it comes back, also when its sign-in was
-- over and swept away long before: until now it was known by its session alone.

-- +goose Up
-- Who was erased, as a hash of a random id: nobody can be read from it, and it is
-- kept as long as a phone may lie in a drawer, for ever.
create table erased_person (
    id_hash   bytea primary key check (octet_length(id_hash) = 32),
    erased_at timestamptz not null default now()
);
alter table erased_person enable row level security;
alter table erased_person force row level security;
create policy keeper on erased_person to current_user using (true) with check (true);

-- +goose StatementBegin
-- Remembers a person's tokens, and a student's id, so that their phones are told.
create or replace function keeper.keep_erased_sessions(club uuid, whose uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    insert into public.erased_session (token_hash)
    select t from public.session s, unnest(array[s.token_hash, s.previous_hash]) t
    where s.club_id = club and (whose is null or s.person_id = whose) and t is not null
    on conflict do nothing;
    insert into public.erased_person (id_hash)
    select sha256(uuid_send(p.id)) from public.person p
    where p.club_id = club and (whose is null or p.id = whose) and p.role = 'student'
    on conflict do nothing;
$$;

-- Reports whether the holder of a token was erased, or the person of that id; one
-- whom the file of a club brought back was not.
create function door.was_erased(token bytea, whose uuid) returns boolean
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select exists (select from public.erased_session e where e.token_hash = token)
        or exists (select from public.erased_person e where e.id_hash = sha256(uuid_send(whose)))
            and not exists (select from public.person p where p.id = whose)
$$;
-- +goose StatementEnd
drop function door.was_erased(bytea);
revoke all on function door.was_erased(bytea, uuid) from public;
grant execute on function door.was_erased(bytea, uuid) to breakwright_app;

-- +goose Down
-- +goose StatementBegin
create or replace function keeper.keep_erased_sessions(club uuid, whose uuid) returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    insert into public.erased_session (token_hash)
    select t from public.session s, unnest(array[s.token_hash, s.previous_hash]) t
    where s.club_id = club and (whose is null or s.person_id = whose) and t is not null
    on conflict do nothing
$$;
create function door.was_erased(token bytea) returns boolean
language sql stable security definer set search_path = pg_catalog, pg_temp as $$
    select exists (select from public.erased_session e where e.token_hash = token)
$$;
-- +goose StatementEnd
drop function door.was_erased(bytea, uuid);
revoke all on function door.was_erased(bytea) from public;
grant execute on function door.was_erased(bytea) to breakwright_app;
drop table erased_person;
