-- name: ListLatestStints :many
-- The latest stint of each of the students, with what was said after its last set
-- and the targets of that set's drill.
select sqlc.embed(x), sqlc.embed(s), sqlc.embed(t), d.target_wing, d.target_window, d.target_shot, d.target_ran_out, coalesce(v.verdict, '') as verdict,
    coalesce(v.finding, 'null')::jsonb as finding
from stint x
join setup s on s.club_id = x.club_id and s.id = x.setup_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
join break_set b on b.club_id = x.club_id and b.id = x.last_set_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
left join advice v on v.club_id = x.club_id and v.set_id = x.last_set_id
where x.latest and x.student_id = any(@students::uuid[]);

-- name: ListChangesInTrial :many
-- The students' changes in trial, newest first, with the setups before and as
-- it is done.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(a)
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.state = 'in trial' and r.student_id = any(@students::uuid[])
order by r.decided_at desc, r.id desc;

-- name: ListLatestTriedChanges :many
-- Each student's latest change that was tried, or is, the newest first.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(a)
from (select unnest(@students::uuid[]) as id) p
cross join lateral (
    select z.id from prescription z
    where z.student_id = p.id and z.decided_at is not null and z.state in ('in trial', 'helped', 'no difference', 'hurt')
    order by z.decided_at desc, z.id desc limit 1
) l
join prescription r on r.id = l.id
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
order by r.decided_at desc, r.id desc limit @most;

-- name: ListStintsAroundChange :many
-- The stint a prescription was made in, and the one that tried it: the first
-- later one of its setup on its table.
select 'before' as part, sqlc.embed(x), sqlc.embed(s), sqlc.embed(t)
from prescription r
join set_tally y on y.club_id = r.club_id and y.set_id = r.set_id
join stint x on x.club_id = y.club_id and x.id = y.stint_id
join setup s on s.club_id = x.club_id and s.id = x.setup_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
where r.id = @id
union all
(select 'after' as part, sqlc.embed(x), sqlc.embed(s), sqlc.embed(t)
from prescription r
join break_set b on b.club_id = r.club_id and b.id = r.set_id
join stint x on x.club_id = r.club_id and x.student_id = r.student_id and x.table_id = b.table_id
    and x.first_started_at > b.started_at and x.setup_id = coalesce(r.decided_setup_id, r.to_setup_id)
join setup s on s.club_id = x.club_id and s.id = x.setup_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
where r.id = @id
order by x.first_started_at, x.id limit 1);

-- name: ListChangesOfStints :many
-- A student's prescriptions that came of sets in these stints, newest first,
-- with the setups before, as proposed and as it is to be done.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a), y.stint_id::uuid as stint_id
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = coalesce(r.to_setup_id, r.decided_setup_id)
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
join set_tally y on y.club_id = r.club_id and y.set_id = r.set_id
where r.student_id = @student_id and y.stint_id = any(@stints::uuid[]) and r.state <> 'withdrawn'
order by r.created_at desc, r.id desc;

-- name: GetStudentTotals :one
-- How much a student has recorded in all, and what was said of the latest.
select (x.sets_before + x.sets)::int as sets, (x.breaks_before + x.breaks)::int as breaks,
    v.verdict, v.advice, v.rules_version, v.created_at
from stint x
left join advice v on v.club_id = x.club_id and v.set_id = x.last_set_id
where x.student_id = @student_id and x.latest;

-- name: ListLatestMessages :many
-- The latest messages about a student's sets, or beside none, newest first.
select sqlc.embed(m), b.started_at as set_started_at
from message m left join break_set b on b.club_id = m.club_id and b.id = m.set_id
where m.student_id = @student_id
order by m.created_at desc, m.id desc limit @most;

-- name: SumStintsUnderSetup :one
-- All that a student broke up to a stint under its setup on its table.
select sum(z.breaks)::int as breaks, sum(z.watched)::int as watched, sum(z.wing_made)::int as wing_made, sum(z.in_window)::int as in_window
from stint x
join stint z on z.club_id = x.club_id and z.student_id = x.student_id and z.table_id = x.table_id
    and z.setup_id = x.setup_id and z.first_started_at <= x.first_started_at
where x.id = @id;

-- name: InsertCard :execrows
insert into break_card (club_id, id, student_id, table_id, setup_id, set_id, breaks, watched, wing_made, in_window, issued_by)
values (@club_id, @id, @student_id, @table_id, @setup_id, @set_id, @breaks, @watched, @wing_made, @in_window, @issued_by)
on conflict (club_id, id) do nothing;

-- name: DeleteCard :execrows
delete from break_card where id = @id and student_id = @student_id;

-- name: ListCards :many
-- A student's newest card for each table.
select distinct on (c.table_id) sqlc.embed(c), sqlc.embed(s), sqlc.embed(t)
from break_card c
join setup s on s.club_id = c.club_id and s.id = c.setup_id
join pool_table t on t.club_id = c.club_id and t.id = c.table_id
where c.student_id = @student_id
order by c.table_id, c.issued_at desc, c.id desc;

-- name: GetClassProgressMark :one
-- Words that change with every row that the class's progress is told from: the
-- class and its students, their stints with what was said after the latest, their
-- tables and targets, and the changes in trial. A row that is written again has a
-- later xmin; one that is gone is not counted. Of people only their names are told. Setups are never changed, and what
-- a set counts stands in its stint's sums.
select concat_ws(' ', c.xmin::text::bigint, m.said, x.said, l.said, r.said)::text as mark
from class c
cross join lateral (
    select concat_ws('.', count(*), sum(hashtextextended(p.id::text || p.name || coalesce(p.archived_at::text, ''), 0))) as said
    from class_member m join person p on p.club_id = m.club_id and p.id = m.student_id
    where m.club_id = c.club_id and m.class_id = c.id
) m
cross join lateral (
    select concat_ws('.', count(*), sum(x.xmin::text::bigint)) as said
    from class_member m join stint x on x.club_id = m.club_id and x.student_id = m.student_id
    where m.club_id = c.club_id and m.class_id = c.id
) x
cross join lateral (
    select concat_ws('.', count(*), sum(t.xmin::text::bigint), sum(d.xmin::text::bigint), sum(v.xmin::text::bigint)) as said
    from class_member m
    join stint x on x.club_id = m.club_id and x.student_id = m.student_id and x.latest
    join pool_table t on t.club_id = x.club_id and t.id = x.table_id
    join break_set b on b.club_id = x.club_id and b.id = x.last_set_id
    left join drill d on d.club_id = b.club_id and d.id = b.drill_id
    left join advice v on v.club_id = x.club_id and v.set_id = x.last_set_id
    where m.club_id = c.club_id and m.class_id = c.id
) l
cross join lateral (
    select concat_ws('.', count(*), sum(r.xmin::text::bigint)) as said
    from class_member m join prescription r on r.club_id = m.club_id and r.student_id = m.student_id
    where m.club_id = c.club_id and m.class_id = c.id and r.state = 'in trial'
) r
where c.id = @class_id;
