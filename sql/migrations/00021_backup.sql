-- When backups were made, so that the doctor can say how old the last one is.
-- Only the owner of the database reads and writes it.

-- +goose Up
create table keeper.backup_made (
    at    timestamptz primary key default now(),
    bytes bigint not null check (bytes > 0)
);

-- +goose Down
drop table keeper.backup_made;
