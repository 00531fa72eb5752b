-- name: InsertTally :exec
insert into set_tally (club_id, set_id, student_id, started_at, window_left, window_right, window_head, window_foot)
values (@club_id, @set_id, @student_id, @started_at, @window_left, @window_right, @window_head, @window_foot);

-- name: GetTally :one
select * from set_tally where set_id = @set_id;

-- name: UpdateTally :exec
update set_tally set breaks = @breaks, watched = @watched, wing_made = @wing_made, miss_side = @miss_side, miss_foot = @miss_foot,
    miss_kissed = @miss_kissed, miss_jaws = @miss_jaws, in_window = @in_window, scratch_head = @scratch_head,
    scratch_side = @scratch_side, scratch_foot = @scratch_foot, cue_off = @cue_off, dry = @dry, balls_off = @balls_off,
    weak = @weak, weak_known = @weak_known
where set_id = @set_id;

-- name: DeleteTally :exec
delete from set_tally where set_id = @set_id;

-- name: ChangeTallyWindow :exec
update set_tally set window_left = @window_left, window_right = @window_right, window_head = @window_head,
    window_foot = @window_foot
where set_id = @set_id;

-- name: LeaveStint :exec
-- The set is in no stint any more.
update set_tally set stint_id = null where set_id = @set_id;

-- name: FindStintBefore :one
-- The stint that the set is part of or comes right after.
select * from stint
where student_id = @student_id and (first_started_at, id) <= (@started_at::timestamptz, @set_id::uuid)
order by first_started_at desc, id desc limit 1;

-- name: FindEarlierStint :one
-- The stint right before one.
select * from stint
where student_id = @student_id and (first_started_at, id) < (@started_at::timestamptz, @set_id::uuid)
order by first_started_at desc, id desc limit 1;

-- name: ListTalliesFrom :many
-- A student's closed sets with a break, oldest first, from one on.
select sqlc.embed(y), sqlc.embed(s), b.table_id
from set_tally y
join break_set b on b.club_id = y.club_id and b.id = y.set_id
join setup s on s.club_id = b.club_id and s.id = b.setup_id
where y.student_id = @student_id and y.breaks > 0 and b.closed_at is not null
  and (y.started_at, y.set_id) >= (@started_at::timestamptz, @set_id::uuid)
order by y.started_at, y.set_id;

-- name: DeleteStintsFrom :exec
-- Those from one on that are no more.
delete from stint where student_id = @student_id
  and (first_started_at, id) >= (@started_at::timestamptz, @set_id::uuid) and id <> all(@but::uuid[]);

-- name: UpsertStint :batchexec
insert into stint (club_id, id, student_id, table_id, setup_id, last_set_id, first_started_at, last_started_at, latest,
    sets_before, breaks_before, sets, breaks, wing_made, miss_side, miss_foot, miss_kissed, miss_jaws, in_window,
    scratch_head, scratch_side, scratch_foot, cue_off, dry, balls_off, weak, weak_known, watched)
values (@club_id, @id, @student_id, @table_id, @setup_id, @last_set_id, @first_started_at, @last_started_at, @latest,
    @sets_before, @breaks_before, @sets, @breaks, @wing_made, @miss_side, @miss_foot, @miss_kissed, @miss_jaws, @in_window,
    @scratch_head, @scratch_side, @scratch_foot, @cue_off, @dry, @balls_off, @weak, @weak_known, @watched)
on conflict (club_id, id) do update set
    table_id = excluded.table_id, setup_id = excluded.setup_id, last_set_id = excluded.last_set_id,
    first_started_at = excluded.first_started_at, last_started_at = excluded.last_started_at, latest = excluded.latest,
    sets_before = excluded.sets_before, breaks_before = excluded.breaks_before, sets = excluded.sets,
    breaks = excluded.breaks, watched = excluded.watched, wing_made = excluded.wing_made, miss_side = excluded.miss_side,
    miss_foot = excluded.miss_foot, miss_kissed = excluded.miss_kissed, miss_jaws = excluded.miss_jaws,
    in_window = excluded.in_window, scratch_head = excluded.scratch_head, scratch_side = excluded.scratch_side,
    scratch_foot = excluded.scratch_foot, cue_off = excluded.cue_off, dry = excluded.dry,
    balls_off = excluded.balls_off, weak = excluded.weak, weak_known = excluded.weak_known;

-- name: AssignSetsToStints :exec
update set_tally y set stint_id = part.stint
from (select unnest(@sets::uuid[]) as set_id, unnest(@stints::uuid[]) as stint) part
where y.set_id = part.set_id and y.stint_id is distinct from part.stint;

-- name: GetStint :one
-- A stint, with the targets of the drill of its latest set.
select sqlc.embed(x), sqlc.embed(s), sqlc.embed(t), d.target_wing, d.target_window, d.target_shot, d.target_ran_out
from stint x
join setup s on s.club_id = x.club_id and s.id = x.setup_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
join break_set b on b.club_id = x.club_id and b.id = x.last_set_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
where x.id = @id;

-- name: GetStintOfSet :one
select sqlc.embed(x), sqlc.embed(s), sqlc.embed(t)
from set_tally y
join stint x on x.club_id = y.club_id and x.id = y.stint_id
join setup s on s.club_id = x.club_id and s.id = x.setup_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
where y.set_id = @set_id;

-- name: ListStints :many
-- A student's stints before a moment, the latest first, with the targets of the
-- drill of each one's latest set.
select sqlc.embed(x), sqlc.embed(s), sqlc.embed(t), d.target_wing, d.target_window, d.target_shot, d.target_ran_out
from stint x
join setup s on s.club_id = x.club_id and s.id = x.setup_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
join break_set b on b.club_id = x.club_id and b.id = x.last_set_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
where x.student_id = @student_id and x.first_started_at < @before::timestamptz
order by x.first_started_at desc, x.id desc limit @most;

-- name: ListStintSets :many
-- The latest sets of stints, newest first, with what was said about them.
select y.stint_id::uuid as stint_id, y.set_id, y.started_at, y.breaks, y.watched, y.wing_made, y.in_window, b.name,
    coalesce(d.name, '') as drill_name, coalesce(v.verdict, '') as verdict,
    coalesce(w.word, '') as word_back,
    (select count(*) from message m where m.club_id = b.club_id and m.set_id = b.id)::int as messages
from (select unnest(@stints::uuid[]) as id) x
cross join lateral (
    select z.club_id, z.stint_id, z.set_id, z.started_at, z.breaks, z.watched, z.wing_made, z.in_window
    from set_tally z where z.stint_id = x.id order by z.started_at desc, z.set_id desc limit @most
) y
join break_set b on b.club_id = y.club_id and b.id = y.set_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
left join advice v on v.club_id = b.club_id and v.set_id = b.id
left join word_back w on w.club_id = b.club_id and w.set_id = b.id
order by y.started_at desc, y.set_id desc;

-- name: ListStintTallies :many
-- A stint's latest sets, the latest first.
select * from set_tally where stint_id = @stint_id order by started_at desc, set_id desc limit @most;

-- name: ListPictureSets :many
-- The latest sets of the latest stint of each student, oldest first.
select x.student_id, x.id as stint_id, y.set_id, y.window_left, y.window_right, y.window_head, y.window_foot,
    t.feet, t.small, t.corner_in, t.side_in, sqlc.embed(s)
from stint x
cross join lateral (
    select z.set_id, z.started_at, z.window_left, z.window_right, z.window_head, z.window_foot
    from set_tally z where z.club_id = x.club_id and z.stint_id = x.id order by z.started_at desc, z.set_id desc limit @most
) y
join setup s on s.club_id = x.club_id and s.id = x.setup_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
where x.latest and x.student_id = any(@students::uuid[])
order by x.student_id, y.started_at, y.set_id;

-- name: ListBreaksInSets :many
-- The breaks of sets, each set's in their order.
select * from break where set_id = any(@sets::uuid[]) and deleted_at is null order by set_id, number;

-- name: ListRecentSets :many
-- The latest closed sets of each student, oldest first.
select p.id::uuid as student_id, y.set_id, y.stint_id::uuid as stint_id, y.started_at, y.breaks, y.watched, y.wing_made, y.in_window,
    y.balls_off, t.feet, t.small, t.corner_in, t.side_in
from (select unnest(@students::uuid[]) as id) p
cross join lateral (
    select z.club_id, z.set_id, z.stint_id, z.started_at, z.breaks, z.watched, z.wing_made, z.in_window, z.balls_off
    from set_tally z where z.student_id = p.id and z.stint_id is not null
    order by z.started_at desc, z.set_id desc limit @most
) y
join stint x on x.club_id = y.club_id and x.id = y.stint_id
join pool_table t on t.club_id = x.club_id and t.id = x.table_id
order by p.id, y.started_at, y.set_id;
