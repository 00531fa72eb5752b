-- A student's quick word on what a set was told: one a set, which they may change
-- and take back.

-- +goose Up
create table word_back (
    club_id    uuid not null,
    set_id     uuid not null,
    student_id uuid not null,
    word       text not null check (word in ('felt wrong', 'hurts', 'done')),
    said_at    timestamptz not null default now(),
    primary key (club_id, set_id),
    foreign key (club_id, set_id, student_id) references break_set (club_id, id, student_id) on delete cascade
);
create index word_back_student on word_back (club_id, student_id);
create index word_back_hurts on word_back (club_id, said_at) where word = 'hurts';

alter table word_back enable row level security;
alter table word_back force row level security;
create policy keeper on word_back to current_user using (true) with check (true);
create policy read on word_back for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on word_back for insert to breakwright_app
    with check (club_id = (select wall.club()) and student_id = (select wall.person()));
create policy change on word_back for update to breakwright_app
    using (club_id = (select wall.club()) and student_id = (select wall.person()));
create policy remove on word_back for delete to breakwright_app
    using (club_id = (select wall.club()) and student_id = (select wall.person()));
grant select, insert (club_id, set_id, student_id, word), update (word, said_at), delete on word_back to breakwright_app;

alter table desk_seen drop constraint desk_seen_reason_check,
    add constraint desk_seen_reason_check check (reason in ('off the table', 'stuck', 'slump', 'idle', 'card', 'asked', 'hurts'));

-- +goose Down
delete from desk_seen where reason = 'hurts';
alter table desk_seen drop constraint desk_seen_reason_check,
    add constraint desk_seen_reason_check check (reason in ('off the table', 'stuck', 'slump', 'idle', 'card', 'asked'));
drop table word_back;
