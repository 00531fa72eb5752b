-- name: InsertAdvice :exec
insert into advice (club_id, set_id, student_id, verdict, advice, rules_version)
values (@club_id, @set_id, @student_id, @verdict, @advice, @rules_version);

-- name: GetAdvice :one
select * from advice where set_id = @set_id;

-- name: DeleteAdvice :exec
delete from advice where set_id = @set_id;
