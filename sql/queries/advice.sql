-- name: InsertAdvice :exec
insert into advice (club_id, set_id, student_id, verdict, advice, rules_version)
values (@club_id, @set_id, @student_id, @verdict, @advice, @rules_version);

-- name: GetAdvice :one
select * from advice where set_id = @set_id;

-- name: ListRulesVersions :many
-- By which rules a student's sets were judged.
select set_id, rules_version from advice where student_id = @student_id;

-- name: DeleteAdvice :exec
delete from advice where set_id = @set_id;
