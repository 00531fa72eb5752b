-- name: ListLiveSets :many
-- The latest set that each student of a class started after a time.
select distinct on (b.student_id) sqlc.embed(b), sqlc.embed(t), sqlc.embed(s)
from class_member m
join break_set b on b.club_id = m.club_id and b.student_id = m.student_id
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = b.club_id and s.id = b.setup_id
where m.class_id = @class_id and b.started_at >= @since
order by b.student_id, b.started_at desc, b.id desc;

-- name: ListBreaksOfSets :many
select * from break where set_id = any(@set_ids::uuid[]) and deleted_at is null order by set_id, number;
