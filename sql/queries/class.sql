-- name: UpsertClass :execrows
insert into class (club_id, id, name) values (@club_id, @id, @name)
on conflict (club_id, id) do update set name = excluded.name;

-- name: ArchiveClass :execrows
update class set archived_at = coalesce(archived_at, now()) where id = @id;

-- name: RestoreClass :execrows
update class set archived_at = null where id = @id;

-- name: GetClass :one
select * from class where id = @id;

-- name: ListClasses :many
select sqlc.embed(c), (
    select count(*) from class_member m join person p on p.club_id = m.club_id and p.id = m.student_id
    where m.club_id = c.club_id and m.class_id = c.id and p.archived_at is null
)::int as students
from class c
where c.archived_at is null or @archived_too::boolean
order by lower(c.name), c.id;

-- name: ListClassMembers :many
select p.id, p.role, p.name, p.side, p.login, p.code, p.joined_at, p.archived_at, p.has_secret, p.code_made_at
from class_member m join person p on p.club_id = m.club_id and p.id = m.student_id
where m.class_id = @class_id and p.archived_at is null
order by lower(p.name), p.joined_at, p.id;

-- name: AddMember :exec
insert into class_member (club_id, class_id, student_id) values (@club_id, @class_id, @student_id)
on conflict do nothing;
