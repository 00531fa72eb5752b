-- A coach writes to a student who has no set yet, too: that message stands by itself.

-- +goose Up
alter table message alter column set_id drop not null,
    add constraint message_student_fkey foreign key (club_id, student_id) references person (club_id, id),
    add constraint message_asks_about_a_set check (set_id is not null or author_id <> student_id);

-- +goose Down
delete from message where set_id is null;
alter table message drop constraint message_asks_about_a_set, drop constraint message_student_fkey,
    alter column set_id set not null;
