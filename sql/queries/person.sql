-- name: GetPerson :one
select id, role, name, side, login, code, joined_at, archived_at, has_secret, code_made_at from person where id = @id;

-- name: ListStudents :many
select id, role, name, side, login, code, joined_at, archived_at, has_secret, code_made_at from person
where role = 'student' and (archived_at is null or @archived_too::boolean)
order by lower(name), joined_at, id;

-- name: ListCoaches :many
select id, role, name, side, login, code, joined_at, archived_at, has_secret, code_made_at from person
where role = 'coach' and archived_at is null
order by lower(name), id;

-- name: ListPeople :many
select id, role, name, side, login, code, joined_at, archived_at, has_secret, code_made_at from person
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

-- name: SetCode :execrows
update person set code = sqlc.arg(code)::text, code_made_at = now() where id = @id and role = 'student';

-- name: ArchivePerson :execrows
update person set archived_at = coalesce(archived_at, now()) where id = @id;

-- name: RestorePerson :execrows
-- Of a coach who was erased there is nobody to restore (door.erase_coach).
update person set archived_at = null where id = @id and login is distinct from 'erased ' || id;

-- name: ListStudentsAsJoined :many
select id, name from person where role = 'student' order by joined_at, id;

-- name: ListLockedPeople :many
-- Who is locked out by too many wrong secrets; a coach's lock opens by itself.
select p.id, p.name, p.role, g.wrong, g.locked_at::timestamptz as locked_at
from sign_in_guard g join person p on p.club_id = g.club_id and p.id = g.person_id
where g.locked_at is not null and p.archived_at is null
order by g.locked_at, p.id;

-- name: InsertInvite :exec
insert into coach_invite (club_id, token_hash, invited_by, expires_at) values (@club_id, @token_hash, @invited_by, @expires_at)
on conflict do nothing;

-- name: ListInvites :many
select i.token_hash, i.created_at, i.expires_at, p.name as invited_by
from coach_invite i join person p on p.club_id = i.club_id and p.id = i.invited_by
where i.expires_at > now() order by i.created_at, i.token_hash;

-- name: RemoveInvite :exec
delete from coach_invite where token_hash = @token_hash;

-- name: ListFormerCoaches :many
select id, name, archived_at::timestamptz as archived_at from person
where role = 'coach' and archived_at is not null and login is distinct from 'erased ' || id order by lower(name), id;
