-- name: ListNotedSince :many
-- Lines of the desk that a coach marked as looked at since a moment, newest first.
select e.student_id, e.reason, e.about_id, e.seen_at, p.name as student_name, k.name as coach_name
from desk_seen e
join person p on p.club_id = e.club_id and p.id = e.student_id
join person k on k.club_id = e.club_id and k.id = e.seen_by
where e.seen_at >= @since::timestamptz and p.archived_at is null
order by e.seen_at desc, e.reason, e.about_id, e.student_id limit @most;

-- name: ListUnreadAnswersSince :many
-- What one coach wrote since a moment and its student has not read, newest first.
select sqlc.embed(m), p.name as student_name
from message m
join person p on p.club_id = m.club_id and p.id = m.student_id
where m.author_id = @author_id and m.created_at >= @since::timestamptz and m.read_by_student_at is null and p.archived_at is null
order by m.created_at desc, m.id limit @most;

-- name: ListCardsSince :many
-- Break cards that were issued since a moment, newest first.
select c.id, c.student_id, c.set_id, c.issued_at, sqlc.embed(t), p.name as student_name, k.name as coach_name
from break_card c
join pool_table t on t.club_id = c.club_id and t.id = c.table_id
join person p on p.club_id = c.club_id and p.id = c.student_id
join person k on k.club_id = c.club_id and k.id = c.issued_by
where c.issued_at >= @since::timestamptz and p.archived_at is null
order by c.issued_at desc, c.id limit @most;

-- name: ListRosterChangesSince :many
-- What was done to students since a moment and not taken back, newest first, with the
-- ids and names of those whom it really changed.
select sqlc.embed(r), coalesce(c.name, '')::text as class_name, k.name as coach_name,
    w.ids::uuid[] as student_ids, w.names::text[] as student_names
from roster_change r
join person k on k.club_id = r.club_id and k.id = r.made_by
left join class c on c.club_id = r.club_id and c.id = r.class_id
cross join lateral (
    select array_agg(p.id order by lower(p.name), p.id) as ids, array_agg(p.name order by lower(p.name), p.id) as names
    from roster_change_student s join person p on p.club_id = s.club_id and p.id = s.student_id
    where s.club_id = r.club_id and s.change_id = r.id
) w
where r.made_at >= @since::timestamptz and r.undone_at is null and w.ids is not null
order by r.made_at desc, r.id limit @most;

-- name: ListStudentsAddedSince :many
-- Students who were added since a moment, those of one form together, newest first.
select p.joined_at, array_agg(p.id order by lower(p.name), p.id)::uuid[] as student_ids,
    array_agg(p.name order by lower(p.name), p.id)::text[] as student_names
from person p
where p.role = 'student' and p.joined_at >= @since::timestamptz and p.archived_at is null
group by p.joined_at
order by p.joined_at desc limit @most;

-- name: ListAssignmentsTouchedSince :many
-- Assignments that were made or ended since a moment, the last of it first.
select sqlc.embed(a), d.name as drill_name, coalesce(c.name, '') as class_name,
    (select count(*) from assignment_student s where s.club_id = a.club_id and s.assignment_id = a.id)::int as students
from assignment a
join drill d on d.club_id = a.club_id and d.id = a.drill_id
left join class c on c.club_id = a.club_id and c.id = a.class_id
where coalesce(a.ended_at, a.created_at) >= @since::timestamptz
order by coalesce(a.ended_at, a.created_at) desc, a.id limit @most;

-- name: ListClassesArchivedSince :many
select id, name, archived_at::timestamptz as archived_at from class
where archived_at >= @since::timestamptz
order by archived_at desc, id limit @most;
