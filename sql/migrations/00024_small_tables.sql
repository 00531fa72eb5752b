-- Tables of 7 and 8 feet come with two playing surfaces each; the smaller one is
-- another kind of table. Until now every table was of the larger one.

-- +goose Up
alter table pool_table
    add column small boolean not null default false,
    add constraint pool_table_small check (not small or feet < 9);
alter table drill
    add column small boolean not null default false,
    add constraint drill_small check (not small or feet < 9);
alter table prescription add column small boolean not null default false;
grant insert (small), update (small) on pool_table, drill to breakwright_app;
grant insert (small) on prescription to breakwright_app;

drop index prescription_open;
create unique index prescription_open on prescription (club_id, student_id, feet, small, corner_in, side_in)
    where state in ('proposed', 'approved', 'changed', 'own', 'in trial');

-- +goose Down
drop index prescription_open;
create unique index prescription_open on prescription (club_id, student_id, feet, corner_in, side_in)
    where state in ('proposed', 'approved', 'changed', 'own', 'in trial');
alter table prescription drop column small;
alter table drill drop column small;
alter table pool_table drop column small;
