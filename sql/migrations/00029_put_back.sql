-- A break that was taken out of its set and is back in it: what it was while it was out
-- is kept like what it was before a change, and says that it was out.

-- +goose Up
alter table break
    add column was_struck boolean not null default false,
    add check (not was_struck or version_of is not null);

-- +goose Down
alter table break drop column was_struck;
