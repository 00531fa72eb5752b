-- A student is judged beside what the breaks of others show of the club's tables, and
-- what they showed then is kept with the advice.

-- +goose Up
alter table advice add column tables_play jsonb; -- null: nothing was known of the tables

-- The adviser counts others' breaks, whosever they are; no page shows whose.
create policy weigh on break_set for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_adviser()));
create policy weigh on break for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_adviser()));

-- +goose Down
drop policy weigh on break;
drop policy weigh on break_set;
alter table advice drop column tables_play;
