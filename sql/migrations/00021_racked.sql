-- How the balls stood in the rack before a break.

-- +goose Up
alter table break
    add column racked text not null default '' check (racked in ('', 'tight', 'loose'));
grant update (racked) on break to breakwright_app;

-- +goose Down
alter table break drop column racked;
