-- name: LockDemo :exec
-- Held until the connection ends.
select pg_advisory_lock(@key::bigint);

-- name: FindClubs :one
-- Whether the demo's club is there to the end, and whether there is any other.
select (count(*) filter (where id = @demo::uuid and name <> @unfinished::text) > 0)::boolean as filled,
    (count(*) filter (where id <> @demo::uuid) > 0)::boolean as others
from club;

-- name: ClearClubs :exec
-- Empties all tables: everything hangs on the club.
truncate club, first_run cascade;

-- name: BackdateSets :exec
-- A set is closed some minutes after its last break.
update break_set set closed_at = started_at + interval '24 minutes' where closed_at is not null;

-- name: BackdateBreaks :exec
update break set created_at = coalesce(at, created_at), updated_at = coalesce(at, updated_at);

-- name: BackdateAdvice :exec
update advice a set created_at = s.closed_at
from break_set s where s.club_id = a.club_id and s.id = a.set_id;

-- name: BackdatePrescriptions :exec
-- The coach decides the same evening.
update prescription p set created_at = s.closed_at,
    decided_at = case when p.decided_at is not null then s.closed_at + interval '70 minutes' end,
    told_at = (select t.started_at from break_set t where t.club_id = p.club_id and t.id = p.told_set_id),
    superseded_at = case when p.superseded_at is not null then s.closed_at + interval '2 days' end
from break_set s where s.club_id = p.club_id and s.id = p.set_id;

-- name: BackdateMessages :exec
-- So does the coach answer.
update message m set
    created_at = s.closed_at + case when m.author_id = m.student_id then interval '6 minutes' else interval '80 minutes' end,
    read_by_coach_at = case when m.read_by_coach_at is not null then s.closed_at + interval '80 minutes' end,
    read_by_student_at = case when m.read_by_student_at is not null then s.closed_at + interval '6 minutes' end
from break_set s where s.club_id = m.club_id and s.id = m.set_id;

-- name: BackdateClub :exec
-- Everybody was there before the first break.
update club set created_at = (select min(started_at) - interval '9 days' from break_set);

-- name: BackdatePeople :exec
update person set joined_at = (select min(started_at) - interval '9 days' from break_set) + (joined_at - now());

-- name: BackdateClasses :exec
update class set created_at = (select min(started_at) - interval '9 days' from break_set);

-- name: BackdateMembers :exec
update class_member set joined_at = (select min(started_at) - interval '9 days' from break_set);

-- name: BackdateAssignments :exec
update assignment set created_at = (select min(started_at) - interval '2 days' from break_set) + (created_at - now());
