-- name: InsertMessage :execrows
insert into message (club_id, id, set_id, student_id, author_id, body, read_by_coach_at, read_by_student_at)
values (@club_id, @id, @set_id, @student_id, @author_id, @body,
    case when @from_coach::boolean then now() end, case when not @from_coach::boolean then now() end)
on conflict (club_id, id) do nothing;

-- name: GetMessage :one
select * from message where id = @id;

-- name: ListMessages :many
select * from message where set_id = @set_id order by created_at, id;

-- name: MarkReadByCoach :exec
update message set read_by_coach_at = now() where set_id = @set_id and read_by_coach_at is null;

-- name: MarkReadByStudent :exec
update message set read_by_student_at = now() where set_id = @set_id and read_by_student_at is null;

-- name: ListUnreadQuestions :many
-- Questions that no coach has read, oldest first.
select sqlc.embed(m), p.name as student_name, b.name as set_name
from message m
join person p on p.club_id = m.club_id and p.id = m.student_id
join break_set b on b.club_id = m.club_id and b.id = m.set_id
where m.read_by_coach_at is null and p.archived_at is null
order by m.created_at, m.id;

-- name: CountUnreadAnswers :one
-- Answers that a student has not read.
select count(*)::int from message where student_id = @student_id and read_by_student_at is null;

-- name: TakeBackMessages :many
-- Those of the messages that the coach wrote and their students have not read.
delete from message where id = any(@ids::uuid[]) and author_id = @author_id and read_by_student_at is null
returning set_id, student_id, created_at;

-- name: CountMessages :one
select count(*)::int from message where id = any(@ids::uuid[]);

-- name: ReopenQuestions :exec
-- The questions that were marked read with an answer of that time, in its transaction.
update message set read_by_coach_at = null
where set_id = @set_id and author_id = student_id and read_by_coach_at = @answered_at;

-- name: ListLatestSets :many
-- The latest set of each of the students; who has none has no row.
select distinct on (student_id) id, student_id from break_set
where student_id = any(@students::uuid[]) order by student_id, started_at desc, id;
