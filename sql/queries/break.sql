-- name: ListBreaks :many
select * from break where set_id = @set_id and deleted_at is null order by number;

-- name: ListBreaksOfStudents :many
select * from break where student_id = any(@student_ids::uuid[]) and deleted_at is null order by set_id, number;

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

-- name: ListDeletedBreaks :many
select * from break where set_id = @set_id and deleted_at is not null order by number, updated_at;

-- name: RemoveDeletedBreaks :exec
delete from break where set_id = @set_id and deleted_at is not null;
