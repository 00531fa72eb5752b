-- name: CountUpTo :one
-- How many of a kind the club has, or a set for messages and what was struck of it,
-- or a student for messages beside no set; counted no further than most.
select count(*)::int from (
    select from person where sqlc.arg(kind)::text = 'student' and role = 'student'
    union all select from person where sqlc.arg(kind)::text = 'coach' and role = 'coach'
    union all select from coach_invite where sqlc.arg(kind)::text = 'coach'
    union all select from class where sqlc.arg(kind)::text = 'class'
    union all select from pool_table where sqlc.arg(kind)::text = 'table'
    union all select from drill where sqlc.arg(kind)::text = 'drill'
    union all select from assignment where sqlc.arg(kind)::text = 'assignment'
    union all select from coach_invite where sqlc.arg(kind)::text = 'invitation'
    union all select from job where sqlc.arg(kind)::text = 'job'
    union all select from message where sqlc.arg(kind)::text = 'message' and set_id = sqlc.arg(within)::uuid
    union all select from message where sqlc.arg(kind)::text = 'message without set' and set_id is null and student_id = sqlc.arg(within)::uuid
    union all select from break where sqlc.arg(kind)::text = 'struck' and set_id = sqlc.arg(within)::uuid and deleted_at is not null
    union all select from club_rule where sqlc.arg(kind)::text = 'rule'
    union all select from roster_change where sqlc.arg(kind)::text = 'roster change'
    limit sqlc.arg(most)::int
) as counted;
