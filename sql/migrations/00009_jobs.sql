-- Long work that goes on while nobody looks: taking over a break log, writing
-- one of a whole club. The process that works on a job says from time to time
-- that it still does; one that has been silent has stopped, and the job can be
-- begun again. The file is the one that came in until the work is done, then
-- the one that goes out, compressed.

-- +goose Up
create table job (
    club_id    uuid not null references club (id),
    id         uuid not null, -- made by the page, so that a second click begins nothing
    asked_by   uuid not null,
    kind       text not null check (kind in ('import', 'export')),
    title      text not null check (char_length(title) between 1 and 200),
    about      jsonb not null default '{}' check (jsonb_typeof(about) = 'object'), -- what is asked for
    state      text not null default 'waiting' check (state in ('waiting', 'running', 'done', 'failed')),
    run        int not null default 0 check (run >= 0), -- counts beginnings, so that a late word of an older one is not heard
    done       int not null default 0 check (done >= 0),
    todo       int not null default 0 check (todo >= 0), -- breaks in all
    says       text not null default '' check (char_length(says) <= 4000), -- why it failed
    result     jsonb not null default '{}' check (jsonb_typeof(result) = 'object'),
    file       bytea,
    created_at timestamptz not null default now(),
    beat_at    timestamptz,
    ended_at   timestamptz,
    primary key (club_id, id),
    foreign key (club_id, asked_by) references person (club_id, id),
    check ((state = 'waiting') = (run = 0)),
    check ((ended_at is not null) = (state in ('done', 'failed'))),
    check (state = 'waiting' or beat_at is not null)
);
create index job_newest on job (club_id, created_at desc, id desc);
alter table job alter column file set storage external; -- it is compressed already

alter table job enable row level security;
alter table job force row level security;
create policy keeper on job to current_user using (true) with check (true);
create policy read on job for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
create policy add on job for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()) and asked_by = (select wall.person()));
create policy change on job for update to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
create policy remove on job for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant select, insert (club_id, id, asked_by, kind, title, about, todo, file), delete,
      update (about, state, run, done, todo, says, result, file, beat_at, ended_at)
    on job to breakwright_app;

-- +goose Down
drop table job;
