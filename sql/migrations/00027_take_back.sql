-- What a coach did by mistake is taken back: a message that its student has not read,
-- and a break card that was just issued.

-- +goose Up
create policy remove on message for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()) and author_id = (select wall.person())
        and read_by_student_at is null);
create policy remove on break_card for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant delete on message, break_card to breakwright_app;

-- +goose Down
revoke delete on message, break_card from breakwright_app;
drop policy remove on break_card;
drop policy remove on message;
