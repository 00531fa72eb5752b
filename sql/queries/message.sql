-- name: InsertMessage :execrows
insert into message (club_id, id, set_id, student_id, author_id, body, read_by_coach_at, read_by_student_at)
values (@club_id, @id, @set_id, @student_id, @author_id, @body,
    case when @from_coach::boolean then now() end, case when not @from_coach::boolean then now() end)
on conflict (club_id, id) do nothing;

-- name: GetMessage :one
select * from message where id = @id;

-- name: ListMessages :many
select * from message where set_id = @set_id::uuid order by created_at, id;

-- name: MarkReadByCoach :exec
update message set read_by_coach_at = now() where set_id = @set_id::uuid and read_by_coach_at is null;

-- name: MarkReadByStudent :exec
update message set read_by_student_at = now() where set_id = @set_id::uuid and read_by_student_at is null;

-- name: ListUnreadWithoutSet :many
-- What coaches wrote to a student beside no set, and the student has not read, oldest first.
select * from message where student_id = @student_id and set_id is null and read_by_student_at is null
order by created_at, id;

-- name: MarkReadWithoutSet :one
update message set read_by_student_at = coalesce(read_by_student_at, now()) where id = @id and set_id is null
returning *;

-- name: ListUnreadQuestions :many
-- Questions that no coach has read, oldest first.
select sqlc.embed(m), p.name as student_name, b.name as set_name
from message m
join person p on p.club_id = m.club_id and p.id = m.student_id
join break_set b on b.club_id = m.club_id and b.id = m.set_id
where m.read_by_coach_at is null and p.archived_at is null
order by m.created_at, m.id;

-- name: CountUnreadAnswers :one
-- What coaches wrote beside a student's sets, and the student has not read.
select count(*)::int from message where student_id = @student_id and set_id is not null and read_by_student_at is null;

-- name: TakeBackMessages :many
-- Those of the messages that the coach wrote and their students have not read.
delete from message where id = any(@ids::uuid[]) and author_id = @author_id and read_by_student_at is null
returning set_id, student_id, created_at;

-- name: CountMessages :one
select count(*)::int from message where id = any(@ids::uuid[]);

-- name: ReopenQuestions :exec
-- The questions that were marked read with an answer of that time, in its transaction.
update message set read_by_coach_at = null
where set_id = @set_id::uuid and author_id = student_id and read_by_coach_at = @answered_at;

-- name: ListLatestSets :many
-- Those of the students who have not left, each with their latest set, or null.
select p.id as student_id, b.id as set_id
from person p
left join break_set b on b.club_id = p.club_id and b.id = (
    select x.id from break_set x where x.club_id = p.club_id and x.student_id = p.id order by x.started_at desc, x.id limit 1)
where p.role = 'student' and p.archived_at is null and p.id = any(@students::uuid[]) order by p.id;
