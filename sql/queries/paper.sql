-- name: ListDecidedChangesOfStudents :many
-- ListDecided for many students.
select distinct on (r.student_id, d.lineage, t.feet, t.corner_in, t.side_in, s.side)
    r.student_id, d.lineage, t.feet, t.corner_in, t.side_in, r.id, r.state, r.decided_at::timestamptz as decided_at, sqlc.embed(s)
from prescription r
join break_set b on b.club_id = r.club_id and b.id = r.set_id
join drill d on d.club_id = b.club_id and d.id = b.drill_id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = r.club_id and s.id = coalesce(r.decided_setup_id, r.to_setup_id)
where r.student_id = any(@student_ids::uuid[]) and r.decision <> 'declined'
order by r.student_id, d.lineage, t.feet, t.corner_in, t.side_in, s.side, r.decided_at desc, r.id desc;
