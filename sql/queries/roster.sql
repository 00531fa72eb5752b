-- name: ListRoster :many
-- All students, archived ones too, with the classes each is in and the start of
-- the last set that counts.
select p.id, p.role, p.name, p.side, p.login, p.code, p.joined_at, p.archived_at, p.has_secret, p.code_made_at,
    coalesce((select array_agg(m.class_id order by m.class_id) from class_member m join class c on c.club_id = m.club_id and c.id = m.class_id
        where m.club_id = p.club_id and m.student_id = p.id and c.archived_at is null), '{}')::uuid[] as classes,
    x.last_started_at as last_set_at
from person p
left join stint x on x.club_id = p.club_id and x.student_id = p.id and x.latest
where p.role = 'student'
order by lower(p.name), p.joined_at, p.id;

-- name: InsertRosterChange :execrows
-- Nothing happens when the same form made it before.
insert into roster_change (club_id, id, kind, side, class_id, made_by)
values (@club_id, @id, @kind, sqlc.narg(side), sqlc.narg(class_id), @made_by)
on conflict do nothing;

-- name: GetRosterChange :one
select sqlc.embed(r), coalesce(c.name, '')::text as class_name,
    (select count(*) from roster_change_student s where s.club_id = r.club_id and s.change_id = r.id)::int as students
from roster_change r left join class c on c.club_id = r.club_id and c.id = r.class_id
where r.id = @id;

-- name: ChangeSides :execrows
with picked as (
    select p.club_id, p.id, p.side from person p
    where p.role = 'student' and p.id = any(@students::uuid[]) and p.side is distinct from sqlc.narg(side)
    for update
), changed as (
    update person p set side = sqlc.narg(side) from picked where p.club_id = picked.club_id and p.id = picked.id returning p.id
)
insert into roster_change_student (club_id, change_id, student_id, side_before)
select picked.club_id, @change_id, picked.id, picked.side from picked join changed on changed.id = picked.id;

-- name: AddMembers :execrows
with added as (
    insert into class_member (club_id, class_id, student_id)
    select p.club_id, @class_id, p.id from person p where p.role = 'student' and p.id = any(@students::uuid[])
    on conflict do nothing returning club_id, student_id
)
insert into roster_change_student (club_id, change_id, student_id)
select added.club_id, @change_id, added.student_id from added;

-- name: RemoveMembers :execrows
with removed as (
    delete from class_member m where m.class_id = @class_id and m.student_id = any(@students::uuid[]) returning m.club_id, m.student_id
)
insert into roster_change_student (club_id, change_id, student_id)
select removed.club_id, @change_id, removed.student_id from removed;

-- name: ArchiveStudents :execrows
with changed as (
    update person p set archived_at = now()
    where p.role = 'student' and p.archived_at is null and p.id = any(@students::uuid[]) returning p.club_id, p.id
)
insert into roster_change_student (club_id, change_id, student_id)
select changed.club_id, @change_id, changed.id from changed;

-- name: RestoreStudents :execrows
with changed as (
    update person p set archived_at = null
    where p.role = 'student' and p.archived_at is not null and p.id = any(@students::uuid[]) returning p.club_id, p.id
)
insert into roster_change_student (club_id, change_id, student_id)
select changed.club_id, @change_id, changed.id from changed;

-- name: MarkRosterChangeUndone :execrows
update roster_change set undone_at = now() where id = @id and undone_at is null;

-- name: ListChangedStudents :many
select student_id from roster_change_student where change_id = @change_id order by student_id;

-- name: UndoSides :exec
-- Who was given another side since keeps it.
update person p set side = s.side_before from roster_change_student s, roster_change r
where s.change_id = @change_id and r.club_id = s.club_id and r.id = s.change_id
  and p.club_id = s.club_id and p.id = s.student_id and p.side is not distinct from r.side;

-- name: UndoAddMembers :exec
delete from class_member m using roster_change_student s, roster_change r
where s.change_id = @change_id and r.club_id = s.club_id and r.id = s.change_id
  and m.club_id = s.club_id and m.class_id = r.class_id and m.student_id = s.student_id;

-- name: UndoRemoveMembers :exec
insert into class_member (club_id, class_id, student_id)
select s.club_id, r.class_id::uuid, s.student_id
from roster_change_student s join roster_change r on r.club_id = s.club_id and r.id = s.change_id
where s.change_id = @change_id
on conflict do nothing;

-- name: UndoArchiveStudents :exec
update person p set archived_at = null from roster_change_student s
where s.change_id = @change_id and p.club_id = s.club_id and p.id = s.student_id;

-- name: UndoRestoreStudents :exec
update person p set archived_at = coalesce(p.archived_at, now()) from roster_change_student s
where s.change_id = @change_id and p.club_id = s.club_id and p.id = s.student_id;

-- name: GetStudentNote :one
select body from student_note where student_id = @student_id and coach_id = @coach_id;

-- name: SaveStudentNote :exec
insert into student_note (club_id, student_id, coach_id, body) values (@club_id, @student_id, @coach_id, @body)
on conflict (club_id, student_id, coach_id) do update set body = excluded.body, updated_at = now();

-- name: RemoveStudentNote :exec
delete from student_note where student_id = @student_id and coach_id = @coach_id;
