-- name: GetPerson :one
select id, role, name, side, login, code, joined_at, archived_at, has_secret from person where id = @id;

-- name: ListStudents :many
select id, role, name, side, login, code, joined_at, archived_at, has_secret from person
where role = 'student' and (archived_at is null or @archived_too::boolean)
order by lower(name), joined_at, id;

-- name: ListCoaches :many
select id, role, name, side, login, code, joined_at, archived_at, has_secret from person
where role = 'coach' and archived_at is null
order by lower(name), id;

-- name: ListPeople :many
select id, role, name, side, login, code, joined_at, archived_at, has_secret from person
where id = any(@ids::uuid[])
order by joined_at, id;

-- name: InsertCoach :execrows
-- Nothing happens when the login is taken, or the coach was added before.
insert into person (club_id, id, role, name, login, secret_hash)
values (@club_id, @id, 'coach', @name, sqlc.arg(login)::text, sqlc.arg(secret_hash)::text)
on conflict do nothing;

-- name: InsertStudent :execrows
-- Nothing happens when the code is taken, or the student was added before.
insert into person (club_id, id, role, name, side, code)
values (@club_id, @id, 'student', @name, sqlc.narg(side), sqlc.narg(code))
on conflict do nothing;

-- name: RenamePerson :execrows
update person set name = @name where id = @id;

-- name: SetSide :execrows
update person set side = sqlc.narg(side) where id = @id and role = 'student';

-- name: SetCode :execrows
update person set code = sqlc.arg(code)::text where id = @id and role = 'student';

-- name: ArchivePerson :execrows
update person set archived_at = coalesce(archived_at, now()) where id = @id;

-- name: RestorePerson :execrows
update person set archived_at = null where id = @id;

-- name: ListStudentsAsJoined :many
select id, name from person where role = 'student' order by joined_at, id;
