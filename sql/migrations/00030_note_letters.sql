-- A note is counted in letters everywhere: one of umlauts had room for half as many.

-- +goose Up
alter table break
    drop constraint break_note_check,
    add constraint break_note_check check (char_length(note) <= 2000);

-- +goose Down
-- What was written meanwhile stays.
alter table break
    drop constraint break_note_check,
    add constraint break_note_check check (octet_length(note) <= 2000) not valid;
