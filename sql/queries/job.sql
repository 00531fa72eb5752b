-- name: InsertJob :execrows
insert into job (club_id, id, asked_by, kind, title, about, todo, file)
values (@club_id, @id, @asked_by, @kind, @title, @about, @todo, @file)
on conflict (club_id, id) do nothing;

-- name: GetJob :one
-- silent_seconds says for how long nothing was heard of one that runs.
select id, asked_by, kind, title, about, state, run, done, todo, says, result, (file is not null)::boolean as has_file,
    created_at, ended_at, coalesce(extract(epoch from now() - beat_at), 0)::float8 as silent_seconds
from job where id = @id;

-- name: ListJobs :many
select id, asked_by, kind, title, about, state, run, done, todo, says, result, (file is not null)::boolean as has_file,
    created_at, ended_at, coalesce(extract(epoch from now() - beat_at), 0)::float8 as silent_seconds
from job order by created_at desc, id desc limit @most;

-- name: GetJobFile :one
select file from job where id = @id and file is not null;

-- name: BeginJob :one
-- Only one that waits, or whose process has been silent: no row otherwise.
update job set state = 'running', run = run + 1, done = 0, about = @about, beat_at = now()
where id = @id and (state = 'waiting'
    or state = 'running' and beat_at < now() - make_interval(secs => sqlc.arg(silence)::float8))
returning run;

-- name: UpdateJobProgress :execrows
update job set done = @done, beat_at = now() where id = @id and run = @run and state = 'running';

-- name: EndJob :execrows
update job set state = @state, done = @done, says = @says, result = @result, file = @file,
    beat_at = now(), ended_at = now()
where id = @id and run = @run and state = 'running';

-- name: DeleteJob :execrows
-- One that is at work stays.
delete from job where id = @id and (state <> 'running'
    or beat_at < now() - make_interval(secs => sqlc.arg(silence)::float8));

-- name: CountExportedBreaks :one
-- How many breaks an export writes: of students, or of everyone.
select count(*)::int from break b
where b.deleted_at is null and (@everyone::boolean or b.student_id = any(@student_ids::uuid[]));

-- name: ListSetsByName :many
-- The sets of those students and names, pair by pair, for comparing with a
-- break log.
select sqlc.embed(b), sqlc.embed(t), sqlc.embed(s), p.name as student_name
from break_set b
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = b.club_id and s.id = b.setup_id
join person p on p.club_id = b.club_id and p.id = b.student_id
where (b.student_id, b.name) in (select unnest(@student_ids::uuid[]), unnest(@names::text[]));

-- name: ListImportedBreaks :many
select * from break where set_id = any(@set_ids::uuid[]) and deleted_at is null order by set_id, number;
