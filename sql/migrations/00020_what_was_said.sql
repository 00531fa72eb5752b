-- +goose Up

-- What a proposal says, as data, beside the words in which it was told: reason,
-- expectation and caution, each a statement of package say. Null for those made
-- before, which are read as they were told.
alter table prescription
    add column said jsonb check (said is null or jsonb_typeof(said) = 'object');

grant insert (said) on prescription to breakwright_app;

-- +goose Down

alter table prescription drop column said;
