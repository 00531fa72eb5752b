-- name: ListOffTableSets :many
-- Sets since a moment in which a ball left the table, newest first.
select y.student_id, p.name as student_name, y.set_id, y.started_at, y.balls_off, y.breaks
from set_tally y join person p on p.club_id = y.club_id and p.id = y.student_id
where y.balls_off > 0 and y.started_at >= @since::timestamptz and p.archived_at is null
  and not exists (select from desk_seen e where e.club_id = y.club_id and e.student_id = y.student_id
      and e.reason = 'off the table' and e.about_id = y.set_id)
order by y.started_at desc, y.set_id desc limit @most;

-- name: ListLastTriedChanges :many
-- The latest two changes of each student that were decided on since a moment and
-- tried to the end, newest first, with the setups before and as it was done; without those
-- to which a coach has answered by a change that is still to be played, or in trial.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(a), p.name as student_name
from person p
cross join lateral (
    select z.id from prescription z
    where z.club_id = p.club_id and z.student_id = p.id and z.state in ('helped', 'no difference', 'hurt')
        and z.decided_at >= @since::timestamptz
    order by z.decided_at desc, z.id desc limit 2
) l
join prescription r on r.club_id = p.club_id and r.id = l.id
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where p.role = 'student' and p.archived_at is null
  and not exists (select from prescription o where o.club_id = r.club_id and o.student_id = r.student_id
      and o.feet = r.feet and o.small = r.small and o.corner_in = r.corner_in and o.side_in = r.side_in
      and o.state in ('approved', 'changed', 'own', 'in trial') and o.decided_at > r.decided_at)
order by p.id, r.decided_at desc, r.id desc;

-- name: ListActiveStudents :many
-- Students who closed a set since a moment.
select x.student_id, p.name as student_name
from stint x join person p on p.club_id = x.club_id and p.id = x.student_id
where x.latest and x.last_started_at >= @since::timestamptz and p.archived_at is null
order by x.student_id;

-- name: ListIdleStudents :many
-- Who has not closed a set of an assignment whose day has passed, and not long ago.
select a.id as assignment_id, d.name as drill_name, a.due_on::date as due_on, p.id as student_id, p.name as student_name
from assignment a
join drill d on d.club_id = a.club_id and d.id = a.drill_id
left join class c on c.club_id = a.club_id and c.id = a.class_id
join person p on p.club_id = a.club_id and p.archived_at is null
where a.ended_at is null and a.due_on < @today::date and a.due_on >= @since::date and c.archived_at is null
  and (exists (select from class_member m where m.club_id = a.club_id and m.class_id = a.class_id and m.student_id = p.id)
    or exists (select from assignment_student w where w.club_id = a.club_id and w.assignment_id = a.id and w.student_id = p.id))
  and not exists (select from break_set b where b.club_id = a.club_id and b.assignment_id = a.id
      and b.student_id = p.id and b.closed_at is not null)
  and not exists (select from desk_seen e where e.club_id = a.club_id and e.student_id = p.id
      and e.reason = 'idle' and e.about_id = a.id)
order by a.due_on, a.id, lower(p.name), p.id;

-- name: ListFoundCards :many
-- Students whose latest advice has a break card in it that no coach has issued, and says
-- that the setup stays (cards once came before that was known), with all they broke under its setup on its table.
select p.name as student_name, sqlc.embed(x), sqlc.embed(s), sqlc.embed(t), n.breaks, n.watched, n.wing_made, n.in_window
from stint x
cross join lateral (
    select sum(z.breaks)::int as breaks, sum(z.watched)::int as watched, sum(z.wing_made)::int as wing_made, sum(z.in_window)::int as in_window from stint z
    where z.club_id = x.club_id and z.student_id = x.student_id and z.table_id = x.table_id and z.setup_id = x.setup_id
) n
join person p on p.club_id = x.club_id and p.id = x.student_id
join advice v on v.club_id = x.club_id and v.set_id = x.last_set_id
join setup s on s.club_id = x.club_id and s.id = x.setup_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
where x.latest and x.last_started_at >= @since::timestamptz and p.archived_at is null and v.has_card and v.verdict = 'keep'
  and not exists (select from break_card c where c.club_id = x.club_id and c.student_id = x.student_id
      and c.table_id = x.table_id and c.setup_id = x.setup_id)
  and not exists (select from desk_seen e where e.club_id = x.club_id and e.student_id = x.student_id
      and e.reason = 'card' and e.about_id = x.id)
order by x.last_started_at desc, x.id;

-- name: CountRecordedSince :one
-- What was recorded since a moment.
select count(*)::int as sets, coalesce(sum(y.breaks), 0)::int as breaks, count(distinct y.student_id)::int as students
from set_tally y
where y.started_at >= @since::timestamptz and y.breaks > 0;

-- name: ListDismissedLines :many
-- The lines of some reasons that a coach wants no more of, marked since a moment.
select student_id, reason, about_id from desk_seen
where reason = any(@reasons::text[]) and seen_at >= @since::timestamptz;

-- name: DismissDeskLine :exec
insert into desk_seen (club_id, student_id, reason, about_id, seen_by)
values (@club_id, @student_id, @reason, @about_id, @seen_by)
on conflict do nothing;

-- name: RestoreDeskLine :exec
-- Puts a line back that was marked as looked at.
delete from desk_seen where student_id = @student_id and reason = @reason and about_id = @about_id;

-- name: ListAskedStudents :many
-- Students whose latest advice asks for a coach's look, and for whom no change
-- has been set since.
select x.student_id, p.name as student_name, x.last_set_id, sqlc.embed(t), sqlc.embed(v)
from stint x
join person p on p.club_id = x.club_id and p.id = x.student_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
join advice v on v.club_id = x.club_id and v.set_id = x.last_set_id
where x.latest and x.last_started_at >= @since::timestamptz and p.archived_at is null and v.asks_coach
  and not exists (select from prescription r where r.club_id = x.club_id and r.set_id = x.last_set_id and r.state <> 'withdrawn')
order by x.last_started_at desc, x.id;
