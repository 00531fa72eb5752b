-- name: ListBreaks :many
select * from break where set_id = @set_id and deleted_at is null order by number;

-- name: ListBreaksOfStudents :many
select * from break where student_id = any(@student_ids::uuid[]) and deleted_at is null order by set_id, number;

-- name: ListBreaksWithLeave :many
-- The breaks in sets of the students who noted in one of them what a break left, each
-- student's by when they were begun.
select k.* from break k join set_tally y on y.club_id = k.club_id and y.set_id = k.set_id
where k.set_id = any(@sets::uuid[]) and k.deleted_at is null
  and k.student_id in (select n.student_id from break n
    where n.set_id = any(@sets::uuid[]) and n.deleted_at is null and (n.shot <> '' or n.ran_out <> ''))
order by k.student_id, y.started_at, k.set_id, k.number;

-- name: GetBreak :one
select * from break where id = @id;

-- name: UpsertBreak :exec
insert into break (club_id, id, set_id, student_id, number, at, speed, cue_how, cue_x, cue_y, cue_pocket, wing_miss,
    cue_path, rails, past_string, shot, ran_out, racked, note, balls, revision, edited_by)
values (@club_id, @id, @set_id, @student_id, @number, sqlc.narg(at), sqlc.narg(speed), @cue_how, sqlc.narg(cue_x),
    sqlc.narg(cue_y), @cue_pocket, @wing_miss, @cue_path, sqlc.narg(rails), sqlc.narg(past_string), @shot, @ran_out, @racked,
    @note, @balls, @revision, sqlc.narg(edited_by))
on conflict (club_id, id) do update set
    number = excluded.number, at = excluded.at, speed = excluded.speed, cue_how = excluded.cue_how,
    cue_x = excluded.cue_x, cue_y = excluded.cue_y, cue_pocket = excluded.cue_pocket,
    wing_miss = excluded.wing_miss, cue_path = excluded.cue_path, rails = excluded.rails,
    past_string = excluded.past_string, shot = excluded.shot, ran_out = excluded.ran_out,
    racked = excluded.racked, note = excluded.note,
    balls = excluded.balls, revision = excluded.revision, edited_by = excluded.edited_by,
    deleted_at = null, delete_reason = '', updated_at = now();

-- name: InsertImportedBreak :batchexec
insert into break (club_id, id, set_id, student_id, number, at, speed, cue_how, cue_x, cue_y, cue_pocket, wing_miss,
    cue_path, rails, past_string, shot, ran_out, racked, note, balls, revision)
values (@club_id, @id, @set_id, @student_id, @number, sqlc.narg(at), sqlc.narg(speed), @cue_how, sqlc.narg(cue_x),
    sqlc.narg(cue_y), @cue_pocket, @wing_miss, @cue_path, sqlc.narg(rails), sqlc.narg(past_string), @shot, @ran_out, @racked,
    @note, @balls, 1);

-- name: DeleteBreak :exec
update break set deleted_at = now(), delete_reason = @delete_reason, revision = @revision,
    edited_by = sqlc.narg(edited_by), updated_at = now()
where id = @id;

-- name: KeepBreakVersion :exec
-- Keeps a break as it is, before it is changed or, when it is out of its set, put back.
insert into break (club_id, id, set_id, student_id, number, at, speed, cue_how, cue_x, cue_y, cue_pocket, wing_miss,
    cue_path, rails, past_string, shot, ran_out, racked, note, balls, revision, deleted_at, delete_reason, edited_by,
    created_at, version_of, was_struck)
select b.club_id, @version_id, b.set_id, b.student_id, b.number, b.at, b.speed, b.cue_how, b.cue_x, b.cue_y, b.cue_pocket,
    b.wing_miss, b.cue_path, b.rails, b.past_string, b.shot, b.ran_out, b.racked, b.note, b.balls, b.revision,
    coalesce(b.deleted_at, now()), @reason, b.edited_by, b.created_at, b.id, b.deleted_at is not null
from break b where b.id = @break_id;

-- name: ListDeletedBreaks :many
select * from break where set_id = @set_id and deleted_at is not null and version_of is null order by number, updated_at;

-- name: ListStruckBreaks :many
-- What was taken out of sets and what was changed in them, as it was, with the coach who
-- wrote the revision after it; zeros for the student, and where none came after.
select sqlc.embed(b), coalesce(b.version_of, b.id)::uuid as break_id,
    coalesce((select n.edited_by from break n
        where n.club_id = b.club_id and (n.id = b.version_of or n.version_of = b.version_of) and n.revision > b.revision
        order by n.revision limit 1), '00000000-0000-0000-0000-000000000000')::uuid as followed_by
from break b
where b.set_id = any(@sets::uuid[]) and b.deleted_at is not null and b.delete_reason <> @but
order by b.set_id, b.number, b.deleted_at, b.revision;

-- name: ListBreaksOut :many
-- All of a set that does not count: what was taken out, and what breaks were.
select * from break where set_id = @set_id and deleted_at is not null;

-- name: CarryBreakOut :exec
update break set cue_x = sqlc.narg(cue_x), cue_y = sqlc.narg(cue_y), balls = @balls where id = @id;

-- name: RemoveDeletedBreaks :exec
delete from break where set_id = @set_id and deleted_at is not null;
