-- name: LockUntilCommit :exec
-- Waits for others who do something to the same student or club one at a time;
-- released at the end of the transaction.
select pg_advisory_xact_lock(hashtextextended(sqlc.arg(id)::text, 0));

-- name: SetActor :exec
-- Who asks, until the transaction ends.
select set_config('app.club_id', sqlc.arg(club)::text, true), set_config('app.person_id', sqlc.arg(person)::text, true), set_config('app.role', sqlc.arg(role)::text, true);

-- name: NotifyEvent :exec
select pg_notify('breakwright', sqlc.arg(event)::text);

-- name: CheckRole :one
-- Whether the role we are could step over the walls.
select (r.rolsuper or r.rolbypassrls or exists (
    select from pg_catalog.pg_class c
    where c.relnamespace = 'public'::regnamespace and c.relkind = 'r' and pg_has_role(c.relowner, 'member')
))::boolean as steps_over
from pg_catalog.pg_roles r where r.rolname = current_user;

-- name: GetSchemaVersion :one
select wall.schema_version()::bigint;
