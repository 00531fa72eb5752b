-- name: ListRules :many
-- What is in force: the latest row of each rule the club ever touched.
select distinct on (rule) * from club_rule order by rule, revision desc;

-- name: ListRuleChanges :many
-- Every change ever made, newest first, with the coach's name as it is now.
select sqlc.embed(r), p.name as coach_name
from club_rule r join person p on p.club_id = r.club_id and p.id = r.changed_by
order by r.revision desc, r.rule;

-- name: ListRuleHistory :many
-- Every row there is, in the order in which they came to be in force.
select * from club_rule order by revision, rule;

-- name: InsertRule :exec
insert into club_rule (club_id, revision, rule, speaks, line, certainty, onward, step, min_breaks, changed_by)
values (@club_id, @revision, @rule, sqlc.narg(speaks), sqlc.narg(line), sqlc.narg(certainty), sqlc.narg(onward),
    sqlc.narg(step), sqlc.narg(min_breaks), @changed_by);

-- name: ListSetsClosedSince :many
-- The sets with breaks closed since then, the latest first, at most so many, of
-- students who are still here; total counts them all.
select b.id, b.student_id, b.drill_id, b.closed_at::timestamptz as closed_at, count(*) over () as total
from break_set b
join person p on p.club_id = b.club_id and p.id = b.student_id
where b.closed_at >= @since::timestamptz and p.archived_at is null
  and exists (select from break k where k.club_id = b.club_id and k.set_id = b.id and k.deleted_at is null)
order by b.closed_at desc, b.id desc
limit @most;

-- name: ListDrillsByID :many
select sqlc.embed(d), sqlc.embed(s)
from drill d join setup s on s.club_id = d.club_id and s.id = d.setup_id
where d.id = any(@ids::uuid[]);
