-- name: InsertProposal :exec
insert into prescription (club_id, id, set_id, student_id, feet, small, corner_in, side_in, rule, variable, from_value, to_value,
    unit, reason, expect, caution, fact_count, fact_of, from_setup_id, to_setup_id, state, superseded_at, superseded_because,
    superseded_by, last_set_id, said)
values (@club_id, @id, @set_id, @student_id, @feet, @small, @corner_in, @side_in, @rule, @variable, @from_value, @to_value,
    @unit, @reason, @expect, @caution, sqlc.narg(fact_count), sqlc.narg(fact_of), @from_setup_id, @to_setup_id::uuid, @state,
    sqlc.narg(superseded_at), sqlc.narg(superseded_because), sqlc.narg(superseded_by), sqlc.narg(last_set_id),
    sqlc.narg(said));

-- name: InsertOwnChange :exec
insert into prescription (club_id, id, set_id, student_id, feet, small, corner_in, side_in, rule, variable, from_value, to_value,
    reason, from_setup_id, state, decision, decided_by, decided_at, decision_note, decided_setup_id)
values (@club_id, @id, @set_id, @student_id, @feet, @small, @corner_in, @side_in, '', '', '', '', '', @from_setup_id, 'own', 'own',
    @decided_by::uuid, @decided_at::timestamptz, @decision_note, @decided_setup_id::uuid);

-- name: UpdateChange :exec
update prescription set state = @state, decision = sqlc.narg(decision), decided_by = sqlc.narg(decided_by),
    decided_at = sqlc.narg(decided_at), decision_note = @decision_note, decided_setup_id = sqlc.narg(decided_setup_id),
    told_set_id = sqlc.narg(told_set_id), told_at = sqlc.narg(told_at), superseded_at = sqlc.narg(superseded_at),
    superseded_because = sqlc.narg(superseded_because), superseded_by = sqlc.narg(superseded_by), last_set_id = sqlc.narg(last_set_id), measure = @measure,
    count_before = @count_before, of_before = @of_before, count_since = @count_since, of_since = @of_since
where id = @id;

-- name: DeleteProposal :exec
delete from prescription where id = @id and decision is null;

-- name: ListBook :many
-- All changes of students, oldest first, with the setup before, the proposed
-- one and the one it leads to; of a coach's own the last two are the same.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a), d.lineage
from prescription r
join break_set b on b.club_id = r.club_id and b.id = r.set_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = coalesce(r.to_setup_id, r.decided_setup_id)
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.student_id = any(@students::uuid[])
order by r.created_at, r.id;

-- name: FindStudentOfChange :one
select student_id from prescription where id = @id;

-- name: ListLastStarts :many
-- When students last began a set on each kind of table.
select b.student_id, t.feet, t.small, t.corner_in, t.side_in, max(b.started_at)::timestamptz as started_at
from break_set b
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
where b.student_id = any(@students::uuid[])
group by b.student_id, t.feet, t.small, t.corner_in, t.side_in;

-- name: FindSetClosedSince :one
-- The last set on a kind of table that a student closed after a moment; no row for none.
select b.id from break_set b
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
where b.student_id = @student_id and t.feet = @feet and t.small = @small and t.corner_in = @corner_in and t.side_in = @side_in
    and b.closed_at > @since::timestamptz
order by b.closed_at desc limit 1;

-- name: FindSetToChange :one
-- The student's latest closed set, with breaks, of a set's drill or setup on its kind of
-- table; no row for none.
select b.id from break_set a
join pool_table at on at.club_id = a.club_id and at.id = a.table_id
join drill ad on ad.club_id = a.club_id and ad.id = a.drill_id
join break_set b on b.club_id = a.club_id and b.student_id = a.student_id
join pool_table bt on bt.club_id = b.club_id and bt.id = b.table_id
join drill bd on bd.club_id = b.club_id and bd.id = b.drill_id
where a.id = @set_id and b.closed_at is not null and (bd.lineage = ad.lineage or b.setup_id = a.setup_id)
    and bt.feet = at.feet and bt.small = at.small and bt.corner_in = at.corner_in and bt.side_in = at.side_in
    and exists (select 1 from break k where k.club_id = b.club_id and k.set_id = b.id and k.deleted_at is null)
order by b.started_at desc, b.id desc limit 1;

-- name: ListPendingPrescriptions :many
-- Proposals that wait for a coach, oldest first.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(s), p.name as student_name, b.name as set_name, b.started_at,
    coalesce(d.name, '') as drill_name, sqlc.embed(t)
from prescription r
join break_set b on b.club_id = r.club_id and b.id = r.set_id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join person p on p.club_id = r.club_id and p.id = r.student_id
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup s on s.club_id = r.club_id and s.id = r.to_setup_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
where r.state = 'proposed' and p.archived_at is null
order by r.created_at, r.id;

-- name: ListDecidedSince :many
-- What coaches decided since a moment, newest first; what was taken back is not
-- in it.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a), w.name as student_name, k.name as coach_name
from prescription r
join person w on w.club_id = r.club_id and w.id = r.student_id
join person k on k.club_id = r.club_id and k.id = r.decided_by
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = coalesce(r.to_setup_id, r.decided_setup_id)
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.decided_at >= @since::timestamptz and r.state <> 'withdrawn' and w.archived_at is null
order by r.decided_at desc, r.id desc limit @most;

-- name: ListPrescriptions :many
-- The students' prescriptions, newest first, with the setups before, as
-- proposed and as it is to be done.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a)
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = coalesce(r.to_setup_id, r.decided_setup_id)
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.student_id = any(@student_ids::uuid[]) and r.state <> 'withdrawn'
order by r.created_at desc, r.id desc;

-- name: GetPrescription :one
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a)
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = coalesce(r.to_setup_id, r.decided_setup_id)
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.id = @id;

-- name: ListChangesOfSet :many
-- What was proposed after a set or decided on it, and the change that its setup
-- tries out, oldest first.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a)
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = coalesce(r.to_setup_id, r.decided_setup_id)
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.set_id = @set_id and r.state <> 'withdrawn'
order by r.created_at, r.id;

-- name: GetChangeKnownAt :one
-- The change that a student had been told of last when they began a set on a
-- kind of table; whether the set is under it is for the setups to say. It was settled
-- before when an older set counted it last.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a),
    exists (select from break_set l where l.club_id = r.club_id and l.id = r.last_set_id and l.started_at < @started_at::timestamptz) as counted_before
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = coalesce(r.to_setup_id, r.decided_setup_id)
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.student_id = @student_id and r.feet = @feet and r.small = @small and r.corner_in = @corner_in and r.side_in = @side_in
  and r.told_at <= @started_at::timestamptz
order by r.told_at desc, r.id desc limit 1;
