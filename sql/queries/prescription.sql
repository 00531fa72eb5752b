-- name: InsertPrescription :exec
insert into prescription (club_id, id, set_id, student_id, rule, variable, from_value, to_value, unit, reason, expect,
    caution, from_setup_id, to_setup_id)
values (@club_id, @id, @set_id, @student_id, @rule, @variable, @from_value, @to_value, @unit, @reason, @expect,
    @caution, @from_setup_id, @to_setup_id);

-- name: LockPrescription :one
select sqlc.embed(r), sqlc.embed(t)
from prescription r
join break_set b on b.club_id = r.club_id and b.id = r.set_id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
where r.id = @id
for update of r;

-- name: DecidePrescription :exec
update prescription set state = @decision, decision = @decision::text, decided_by = @decided_by::uuid, decided_at = now(),
    decision_note = @decision_note, decided_setup_id = sqlc.narg(decided_setup_id)
where id = @id;

-- name: SupersedeProposals :exec
-- A newer set of the same drills on the same kind of table has its own say.
update prescription r set superseded_at = now(), superseded_by = @set_id
from break_set b join pool_table t on t.club_id = b.club_id and t.id = b.table_id
    left join drill d on d.club_id = b.club_id and d.id = b.drill_id
where r.club_id = b.club_id and r.set_id = b.id and r.student_id = @student_id
  and r.state = 'proposed' and r.superseded_at is null and r.set_id <> @set_id
  and d.lineage is not distinct from sqlc.narg(lineage)::uuid
  and t.feet = @feet and t.corner_in = @corner_in and t.side_in = @side_in;

-- name: ListDecidedChanges :many
-- For each drill lineage, kind of table and break side the change the coach
-- decided on last, declined ones left out.
select distinct on (d.lineage, t.feet, t.corner_in, t.side_in, s.side)
    d.lineage, t.feet, t.corner_in, t.side_in, r.id, r.state, r.decided_at::timestamptz as decided_at, sqlc.embed(s)
from prescription r
join break_set b on b.club_id = r.club_id and b.id = r.set_id
join drill d on d.club_id = b.club_id and d.id = b.drill_id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = r.club_id and s.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.student_id = @student_id and r.decision <> 'declined'
order by d.lineage, t.feet, t.corner_in, t.side_in, s.side, r.decided_at desc, r.id desc;

-- name: StartPrescriptionTrial :exec
update prescription set state = 'in trial' where id = @id and state in ('approved', 'changed');

-- name: EndPrescriptionTrial :exec
update prescription set state = @state, ended_by = @ended_by::uuid where id = @id and state = 'in trial';

-- name: RestorePrescriptionTrial :exec
-- Those whose trial a set ended are in trial again.
update prescription set state = 'in trial', ended_by = null where ended_by = @set_id::uuid;

-- name: RestoreProposals :exec
-- Those whose place a set took wait for a coach again.
update prescription set superseded_at = null, superseded_by = null where superseded_by = @set_id::uuid and decision is null;

-- name: DeleteProposal :exec
delete from prescription where set_id = @set_id and decision is null;

-- name: ListPendingPrescriptions :many
-- Proposals that wait for a coach, oldest first.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(s), p.name as student_name, b.name as set_name, b.closed_at,
    coalesce(d.name, '') as drill_name, sqlc.embed(t)
from prescription r
join break_set b on b.club_id = r.club_id and b.id = r.set_id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join person p on p.club_id = r.club_id and p.id = r.student_id
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup s on s.club_id = r.club_id and s.id = r.to_setup_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
where r.state = 'proposed' and r.superseded_at is null and p.archived_at is null
order by r.created_at, r.id;

-- name: ListPrescriptions :many
-- The students' prescriptions, newest first, with the setups before, as
-- proposed and as it is to be done.
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a)
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = r.to_setup_id
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.student_id = any(@student_ids::uuid[])
order by r.created_at desc, r.id desc;

-- name: GetPrescription :one
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a)
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = r.to_setup_id
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.id = @id;

-- name: GetPrescriptionOfSet :one
select sqlc.embed(r), sqlc.embed(f), sqlc.embed(p), sqlc.embed(a)
from prescription r
join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
join setup p on p.club_id = r.club_id and p.id = r.to_setup_id
join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.set_id = @set_id;
