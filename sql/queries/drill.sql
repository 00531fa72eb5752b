-- name: ListDrills :many
select sqlc.embed(d), sqlc.embed(s), exists (
    select from assignment a where a.club_id = d.club_id and a.drill_id = d.id
) as assigned
from drill d join setup s on s.club_id = d.club_id and s.id = d.setup_id
where d.archived_at is null or @archived_too::boolean
order by lower(d.name), d.created_at, d.id;

-- name: GetDrill :one
select sqlc.embed(d), sqlc.embed(s), exists (
    select from assignment a where a.club_id = d.club_id and a.drill_id = d.id
) as assigned
from drill d join setup s on s.club_id = d.club_id and s.id = d.setup_id
where d.id = @id;

-- name: LockDrill :one
-- Assigning takes the share lock, changing this one: a drill cannot be changed
-- in the moment it is assigned.
select archived_at from drill where id = @id for update;

-- name: LockDrillShared :one
select archived_at from drill where id = @id for share;

-- name: FindReplacement :one
select id from drill where replaces = sqlc.arg(replaces)::uuid;

-- name: InsertDrill :exec
-- Nothing happens when a second click was faster.
insert into drill (club_id, id, lineage, replaces, name, feet, small, corner_in, side_in, setup_id, breaks,
    window_left, window_right, window_head, window_foot, target_wing, target_window, target_shot, target_ran_out,
    three_points, break_box, watch, watch_wing, watch_path, watch_cue_only)
values (@club_id, @id, @lineage, sqlc.narg(replaces), @name, @feet, @small, @corner_in, @side_in, @setup_id, @breaks,
    @window_left, @window_right, @window_head, @window_foot, @target_wing, @target_window, sqlc.narg(target_shot),
    sqlc.narg(target_ran_out), @three_points, sqlc.narg(break_box), @watch, @watch_wing, @watch_path, @watch_cue_only)
on conflict (club_id, id) do nothing;

-- name: UpdateDrill :execrows
update drill set name = @name, feet = @feet, small = @small, corner_in = @corner_in, side_in = @side_in, setup_id = @setup_id,
    breaks = @breaks, window_left = @window_left, window_right = @window_right, window_head = @window_head,
    window_foot = @window_foot, target_wing = @target_wing, target_window = @target_window,
    target_shot = sqlc.narg(target_shot), target_ran_out = sqlc.narg(target_ran_out), three_points = @three_points,
    break_box = sqlc.narg(break_box), watch = @watch, watch_wing = @watch_wing, watch_path = @watch_path,
    watch_cue_only = @watch_cue_only
where id = @id;

-- name: ArchiveDrill :execrows
update drill set archived_at = coalesce(archived_at, now()) where id = @id;

-- name: RestoreDrill :execrows
update drill set archived_at = null where id = @id;
