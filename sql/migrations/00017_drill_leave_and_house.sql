-- What a drill may ask beyond the wing ball and the window: a shot on the lowest
-- ball, the table run out, and the room's own rules for the break.

-- +goose Up
alter table drill
    add column target_shot    float8 check (target_shot > 0 and target_shot <= 1), -- null: not asked for
    add column target_ran_out float8 check (target_ran_out > 0 and target_ran_out <= 1),
    add column three_points   boolean not null default false,
    add column break_box      float8 check (break_box between 2.25 and 25); -- inches to each side; null: none

grant insert (target_shot, target_ran_out, three_points, break_box),
      update (target_shot, target_ran_out, three_points, break_box) on drill to breakwright_app;

-- +goose Down
alter table drill drop column target_shot, drop column target_ran_out, drop column three_points, drop column break_box;
