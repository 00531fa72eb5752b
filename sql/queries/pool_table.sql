-- name: ListTables :many
select * from pool_table
where archived_at is null or @archived_too::boolean
order by lower(venue), lower(name), created_at, id;

-- name: GetTable :one
select * from pool_table where id = @id;

-- name: LockTable :one
select * from pool_table where id = @id for update;

-- name: IsTableUsed :one
select exists (select from break_set where table_id = @table_id);

-- name: InsertTable :execrows
-- Nothing happens when the name is taken, or the table was made before.
insert into pool_table (club_id, id, name, venue, feet, small, corner_in, side_in, archived_at)
values (@club_id, @id, @name, @venue, @feet, @small, @corner_in, @side_in, sqlc.narg(archived_at))
on conflict do nothing;

-- name: UpdateTable :execrows
update pool_table set name = @name, venue = @venue, feet = @feet, small = @small, corner_in = @corner_in, side_in = @side_in
where id = @id;

-- name: ArchiveTable :execrows
update pool_table set archived_at = coalesce(archived_at, now()) where id = @id;

-- name: RestoreTable :execrows
update pool_table set archived_at = null where id = @id;
