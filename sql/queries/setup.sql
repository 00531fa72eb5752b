-- name: FindSetup :one
select id from setup
where club_id = @club_id and game = @game and spot = @spot and rack = @rack and side = @side and wing = @wing
  and cue_x = @cue_x and cue_y = @cue_y and contact = @contact and tip = @tip and spin = @spin
  and speed is not distinct from sqlc.narg(speed);

-- name: InsertSetup :exec
insert into setup (club_id, id, game, spot, rack, side, wing, cue_x, cue_y, contact, tip, spin, speed)
values (@club_id, @id, @game, @spot, @rack, @side, @wing, @cue_x, @cue_y, @contact, @tip, @spin, sqlc.narg(speed))
on conflict do nothing;

-- name: GetSetup :one
select * from setup where id = @id;

-- name: ListSetups :many
select * from setup where id = any(@ids::uuid[]);
