-- Who has joined, without telling a secret; drills given for one break side; and
-- ways to what the desk and a class's page ask for that do not grow with the past.

-- +goose Up
alter table person add column has_secret boolean not null generated always as (secret_hash is not null) stored;
grant select (has_secret) on person to breakwright_app;

-- Null: each student's own side.
alter table assignment add column side text check (side in ('left', 'right'));
grant insert (side) on assignment to breakwright_app;

create index stint_like on stint (club_id, student_id, table_id, setup_id);
create index set_tally_started on set_tally (club_id, started_at) include (student_id, breaks);

-- What is asked of the latest advice of many students: an advice names all sets
-- that it rests on, so it is long after years.
alter table advice
    add column has_card boolean not null generated always as (advice ? 'card') stored,
    add column finding jsonb generated always as (jsonb_path_query_first(advice, '$.findings[*] ? (@.fired == true)')) stored;

-- +goose Down
alter table advice drop column finding, drop column has_card;
drop index set_tally_started, stint_like;
alter table assignment drop column side;
alter table person drop column has_secret;
