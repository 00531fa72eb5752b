-- name: InsertSet :execrows
insert into break_set (club_id, id, student_id, assignment_id, drill_id, table_id, setup_id, name, planned, started_at, closed_at, training)
values (@club_id, @id, @student_id, sqlc.narg(assignment_id), sqlc.narg(drill_id), @table_id, @setup_id, @name,
    @planned, @started_at, sqlc.narg(closed_at), @training)
on conflict (club_id, id) do nothing;

-- name: GetSet :one
select sqlc.embed(b), sqlc.embed(t), sqlc.embed(s), sqlc.embed(y), p.name as student_name, p.side as student_side
from break_set b
join set_tally y on y.club_id = b.club_id and y.set_id = b.id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = b.club_id and s.id = b.setup_id
join person p on p.club_id = b.club_id and p.id = b.student_id
where b.id = @id;

-- name: LockSet :one
select sqlc.embed(b), sqlc.embed(t), sqlc.embed(s), sqlc.embed(y)
from break_set b
join set_tally y on y.club_id = b.club_id and y.set_id = b.id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = b.club_id and s.id = b.setup_id
where b.id = @id
for update of b;

-- name: BumpSetRevision :one
update break_set set revision = revision + 1 where id = @id returning revision;

-- name: CloseSet :exec
-- At a moment, or now.
update break_set set closed_at = coalesce(sqlc.narg(at)::timestamptz, now()), revision = revision + 1 where id = @id;

-- name: ReopenClosedSet :exec
update break_set set closed_at = null, revision = revision + 1 where id = @id;

-- name: MoveSet :exec
update break_set set assignment_id = sqlc.narg(assignment_id), drill_id = sqlc.narg(drill_id), table_id = @table_id,
    setup_id = @setup_id, training = @training, revision = revision + 1
where id = @id;

-- name: HasLaterSet :one
select exists (select 1 from break_set where student_id = @student_id and started_at > @started_at);

-- name: DeleteSet :exec
delete from break_set where id = @id;

-- name: ListSets :many
-- A student's sets, newest first, as a list shows them.
select b.id, b.name, b.planned, b.started_at, b.closed_at, b.assignment_id, b.drill_id,
    b.training, coalesce(d.name, '') as drill_name, sqlc.embed(t), sqlc.embed(s),
    (select count(*) from break k where k.club_id = b.club_id and k.set_id = b.id and k.deleted_at is null)::int as breaks,
    coalesce(v.verdict, '') as verdict, coalesce(r.state, '') as state,
    (select count(*) from message m where m.club_id = b.club_id and m.set_id = b.id
        and m.author_id = m.student_id and m.read_by_coach_at is null)::int as waiting,
    (select count(*) from message m where m.club_id = b.club_id and m.set_id = b.id
        and m.author_id <> m.student_id and m.read_by_student_at is null)::int as answers
from break_set b
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = b.club_id and s.id = b.setup_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
left join advice v on v.club_id = b.club_id and v.set_id = b.id
left join lateral (select z.id, z.state from prescription z
    where z.club_id = b.club_id and z.set_id = b.id and z.state <> 'withdrawn' order by z.created_at desc, z.id desc limit 1) r on true
where b.student_id = @student_id
order by b.started_at desc, b.id desc;

-- name: ListOpenSets :many
select b.id, b.name, b.planned, b.started_at, b.assignment_id, b.training, coalesce(d.name, '') as drill_name, t.name as table_name, t.venue,
    (select count(*) from break k where k.club_id = b.club_id and k.set_id = b.id and k.deleted_at is null)::int as breaks
from break_set b
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
where b.student_id = @student_id and b.closed_at is null
order by b.started_at desc, b.id desc;

-- name: GetLastSet :one
select table_id, started_at from break_set where student_id = @student_id order by started_at desc, id desc limit 1;

-- name: ListSetNames :many
select name from break_set where student_id = @student_id and starts_with(name, @beginning);

-- name: ListSetsOfStudents :many
-- All sets of the students, each student's oldest first.
select sqlc.embed(b), sqlc.embed(t), sqlc.embed(s), sqlc.embed(y), p.name as student_name
from break_set b
join set_tally y on y.club_id = b.club_id and y.set_id = b.id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = b.club_id and s.id = b.setup_id
join person p on p.club_id = b.club_id and p.id = b.student_id
where b.student_id = any(@student_ids::uuid[])
order by b.student_id, b.started_at, b.id;

-- name: CountSetsMadeLately :one
-- Sets of a student that were made here within a day, whenever they were broken.
-- Nobody breaks before they begin, so that the index by their beginning serves.
select count(*)::int from break_set
where student_id = @student_id and started_at > now() - interval '60 days' and created_at > now() - interval '1 day';

-- name: ListNewestSetsOfOthers :many
-- Among the newest sets of a rack within a year those of other students, each student's
-- together and no more than so many.
select n.id, n.student_id, sqlc.embed(t), sqlc.embed(s)
from (
    select l.*, row_number() over (partition by l.student_id order by l.started_at desc, l.id) as nth
    from (
        select b.club_id, b.id, b.student_id, b.table_id, b.setup_id, b.started_at
        from break_set b
        join setup r on r.club_id = b.club_id and r.id = b.setup_id
        where b.student_id <> @student_id and b.closed_at is not null and b.started_at > now() - interval '1 year'
            and r.game = @game and r.spot = @spot
        order by b.started_at desc, b.id
        limit @most
    ) l
) n
join pool_table t on t.club_id = n.club_id and t.id = n.table_id
join setup s on s.club_id = n.club_id and s.id = n.setup_id
where n.nth <= @most_of_one::int
order by n.student_id, n.started_at, n.id;
