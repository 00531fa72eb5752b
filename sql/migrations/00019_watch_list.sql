-- What a drill asks for at the table beside what every break needs: what the wing
-- ball met first, and how a cue ball that missed the window came to rest.

-- +goose Up
alter table drill
    add column watch_wing boolean not null default true,
    add column watch_path boolean not null default false;
grant insert (watch_wing, watch_path), update (watch_wing, watch_path) on drill to breakwright_app;

-- +goose Down
alter table drill drop column watch_wing, drop column watch_path;
