-- name: InsertAdvice :exec
insert into advice (club_id, set_id, student_id, verdict, advice, rules_version, tables_play)
values (@club_id, @set_id, @student_id, @verdict, @advice, @rules_version, sqlc.narg(tables_play));

-- name: GetAdvice :one
select * from advice where set_id = @set_id;

-- name: ListJudgedBy :many
-- By which rules students' sets were judged, and how the tables played as was known then.
select set_id, rules_version, tables_play from advice where student_id = any(@student_ids::uuid[]);

-- name: DeleteAdvice :exec
delete from advice where set_id = @set_id;
