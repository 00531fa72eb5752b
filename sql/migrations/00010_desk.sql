-- Who has joined, without telling a secret; and drills given for one break side.

-- +goose Up
alter table person add column has_secret boolean not null generated always as (secret_hash is not null) stored;
grant select (has_secret) on person to breakwright_app;

-- Null: each student's own side.
alter table assignment add column side text check (side in ('left', 'right'));
grant insert (side) on assignment to breakwright_app;

-- +goose Down
alter table assignment drop column side;
alter table person drop column has_secret;
