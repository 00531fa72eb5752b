-- What a break was before it was changed: a copy of its row, deleted like a break
-- that was taken out, with the reason of the change.

-- +goose Up
alter table break
    add column version_of uuid, -- the break that this was; null: a break of its own
    add foreign key (club_id, version_of) references break (club_id, id) on delete cascade,
    add check (version_of is null or deleted_at is not null);
create index break_version on break (club_id, version_of) where version_of is not null;

-- What is struck out of a set is read apart from what counts.
create index break_struck on break (club_id, set_id) where deleted_at is not null;

-- +goose Down
drop index break_struck;
delete from break where version_of is not null;
alter table break drop column version_of;
