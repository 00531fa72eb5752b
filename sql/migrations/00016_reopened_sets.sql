-- A set that was closed by mistake is opened again, one begun on the wrong table
-- is moved, one without a break goes; and a student may train without an
-- assignment.

-- +goose Up

-- What was trained without an assignment, in words; '' for a set of an
-- assignment and one from a break log.
alter table break_set
    add column training text not null default '' check (char_length(training) <= 120),
    add check (training = '' or assignment_id is null);
grant insert (training), update (assignment_id, drill_id, table_id, setup_id, planned, training) on break_set to breakwright_app;

-- The set whose beginning or closing superseded a change, or whose closing counted
-- it last: opening that set again, or putting it away, gives back what it ended.
alter table prescription add column last_set_id uuid;
alter table prescription add foreign key (club_id, last_set_id, student_id) references break_set (club_id, id, student_id);
create index prescription_last_set on prescription (club_id, last_set_id) where last_set_id is not null;
grant insert (last_set_id), update (last_set_id) on prescription to breakwright_app;

-- What was said about a set that is opened again goes, as far as nobody decided on it.
create policy remove on advice for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_adviser()) and student_id = (select wall.person()));
create policy remove on prescription for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_adviser()) and student_id = (select wall.person())
        and decision is null);
grant delete on advice, prescription to breakwright_app;

-- An open set without a break may be put away by who began it.
create policy remove on break_set for delete to breakwright_app
    using (club_id = (select wall.club()) and closed_at is null
        and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy remove on set_tally for delete to breakwright_app
    using (club_id = (select wall.club()) and breaks = 0
        and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy remove on break for delete to breakwright_app
    using (club_id = (select wall.club()) and deleted_at is not null
        and ((select wall.is_coach()) or student_id = (select wall.person())));
grant delete on break_set, set_tally, break to breakwright_app;
grant update (window_left, window_right, window_head, window_foot) on set_tally to breakwright_app;

-- +goose Down
revoke update (window_left, window_right, window_head, window_foot) on set_tally from breakwright_app;
revoke delete on break_set, set_tally, break, advice, prescription from breakwright_app;
drop policy remove on break;
drop policy remove on set_tally;
drop policy remove on break_set;
drop policy remove on prescription;
drop policy remove on advice;
alter table prescription drop column last_set_id;
alter table break_set drop column training;
