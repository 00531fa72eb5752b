-- One record of a change, from proposal to result: what was proposed and why,
-- what the coach decided (also their own, with no proposal), which set told it,
-- what came of it in counts, and what took its place. For a student and a kind
-- of table at most one change is open.

-- +goose Up
alter table prescription
    -- The kind of table it is for, that of its set.
    add column feet               int,
    add column corner_in          double precision,
    add column side_in            double precision,
    -- The fact that asks for it: so many of so many; null where none is counted.
    add column fact_count         int,
    add column fact_of            int,
    -- The first set that carried it.
    add column told_set_id        uuid,
    add column told_at            timestamptz,
    add column superseded_because text,
    add column superseded_by      uuid,
    -- How its trial stands, in what the change is about; '' before anything is known.
    add column measure            text not null default '',
    add column count_before       int not null default 0,
    add column of_before          int not null default 0,
    add column count_since        int not null default 0,
    add column of_since           int not null default 0,
    drop constraint prescription_club_id_set_id_key,
    drop constraint prescription_state_check,
    drop constraint prescription_decision_check,
    drop constraint prescription_rule_check,
    drop constraint prescription_variable_check,
    drop constraint prescription_reason_check,
    drop constraint prescription_check,
    drop constraint prescription_check1,
    drop constraint prescription_check2,
    drop constraint prescription_check3,
    drop constraint prescription_check4,
    drop constraint prescription_check5,
    alter column to_setup_id drop not null;

update prescription r set feet = t.feet, corner_in = t.corner_in, side_in = t.side_in
from break_set b join pool_table t on t.club_id = b.club_id and t.id = b.table_id
where b.club_id = r.club_id and b.id = r.set_id;

update prescription r set fact_count = (f.finding ->> 'count')::int, fact_of = (f.finding ->> 'of')::int
from (select a.club_id, a.set_id, e.finding from advice a
    cross join lateral jsonb_array_elements(case jsonb_typeof(a.advice -> 'findings') when 'array' then a.advice -> 'findings' else '[]' end) as e (finding)) f
where f.club_id = r.club_id and f.set_id = r.set_id and f.finding ->> 'rule' = r.rule and (f.finding ->> 'of')::int > 0;

-- Setups that are the same, also seen from the other side: both ways are made
-- together whenever a setup is proposed or decided, and mirror each other in
-- place, contact, spin and side.
-- +goose StatementBegin
create function pg_temp.alike(a setup, b setup) returns boolean language sql immutable as $$
    select a.game = b.game and a.spot = b.spot and a.tip = b.tip and a.speed is not distinct from b.speed
        and a.cue_y = b.cue_y
        and case when a.side = b.side
            then a.cue_x = b.cue_x and a.contact = b.contact and a.spin = b.spin and a.rack = b.rack
            else a.cue_x = -b.cue_x and a.contact = -b.contact and a.spin = -b.spin end
$$;
-- +goose StatementEnd

-- The first set under it: begun after the one it was made from, on its kind of
-- table, under its setup.
update prescription r set told_set_id = n.id, told_at = n.started_at
from (select distinct on (r.club_id, r.id) r.club_id, r.id as change_id, b.id, b.started_at
    from prescription r
    join break_set o on o.club_id = r.club_id and o.id = r.set_id
    join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
    join break_set b on b.club_id = r.club_id and b.student_id = r.student_id and b.started_at > o.started_at
    join setup s on s.club_id = b.club_id and s.id = b.setup_id and pg_temp.alike(a, s)
    join pool_table t on t.club_id = b.club_id and t.id = b.table_id
        and (t.feet, t.corner_in, t.side_in) = (r.feet, r.corner_in, r.side_in)
    where r.state in ('in trial', 'helped', 'no difference', 'hurt')
    order by r.club_id, r.id, b.started_at, b.id) n
where n.club_id = r.club_id and n.change_id = r.id;

-- How the trial stood when it was last spoken of.
update prescription r set measure = n.said ->> 'measure', count_before = (n.said ->> 'count_before')::int,
    of_before = (n.said ->> 'of_before')::int, count_since = (n.said ->> 'count_after')::int, of_since = (n.said ->> 'of_after')::int
from (select distinct on (r.club_id, r.id) r.club_id, r.id as change_id, v.advice -> 'follow_up' as said
    from prescription r
    join break_set told on told.club_id = r.club_id and told.id = r.told_set_id
    join break_set b on b.club_id = r.club_id and b.student_id = r.student_id and b.setup_id = told.setup_id
        and b.table_id = told.table_id and b.started_at >= told.started_at
    join advice v on v.club_id = b.club_id and v.set_id = b.id
    where v.advice -> 'follow_up' ? 'measure'
      and (r.state = 'in trial' or v.advice -> 'follow_up' ->> 'outcome' = r.state)
    order by r.club_id, r.id, case when r.state = 'in trial' then b.started_at end desc, b.started_at, b.id) n
where n.club_id = r.club_id and n.change_id = r.id;

update prescription set state = 'superseded', superseded_because = 'a newer change' where superseded_at is not null;

-- Of several that are open for one student and kind of table the newest stays.
update prescription r set state = 'superseded', superseded_because = 'a newer change', superseded_by = n.newest, superseded_at = n.since
from (select club_id, id, first_value(id) over w as newest, first_value(coalesce(decided_at, created_at)) over w as since
    from prescription where state in ('proposed', 'approved', 'changed', 'in trial')
    window w as (partition by club_id, student_id, feet, corner_in, side_in
        order by coalesce(decided_at, created_at) desc, id desc)) n
where n.club_id = r.club_id and n.id = r.id and n.newest <> r.id;

-- What a student has left for another table or another setup since.
update prescription r set state = 'superseded', superseded_at = n.started_at,
    superseded_because = case when n.elsewhere then 'another table' else 'another setup' end
from (select distinct on (r.club_id, r.id) r.club_id, r.id as change_id, b.started_at,
        (t.feet, t.corner_in, t.side_in) <> (r.feet, r.corner_in, r.side_in) as elsewhere,
        pg_temp.alike(a, s) as under_it, r.told_set_id is null and pg_temp.alike(f, s) as as_before
    from prescription r
    join setup f on f.club_id = r.club_id and f.id = r.from_setup_id
    join setup a on a.club_id = r.club_id and a.id = coalesce(r.decided_setup_id, r.to_setup_id)
    join break_set b on b.club_id = r.club_id and b.student_id = r.student_id and b.started_at > coalesce(r.told_at, r.decided_at)
    join setup s on s.club_id = b.club_id and s.id = b.setup_id
    join pool_table t on t.club_id = b.club_id and t.id = b.table_id
    where r.state in ('approved', 'changed', 'in trial')
    order by r.club_id, r.id, b.started_at desc, b.id desc) n
where n.club_id = r.club_id and n.change_id = r.id and (n.elsewhere or not n.under_it and not n.as_before);

alter table prescription
    alter column feet set not null,
    alter column corner_in set not null,
    alter column side_in set not null,
    add constraint prescription_state check (state in ('proposed', 'approved', 'changed', 'declined', 'own', 'in trial',
        'helped', 'no difference', 'hurt', 'superseded', 'withdrawn')),
    add constraint prescription_decision check (decision in ('approved', 'changed', 'declined', 'own')),
    -- The coach's own has no proposal, every other one has.
    add constraint prescription_proposal check ((decision is not distinct from 'own') = (to_setup_id is null)
        and (to_setup_id is null) = (rule = '') and (rule = '') = (reason = '') and (rule = '') = (variable = '')),
    add constraint prescription_decided check ((decision is null) = (decided_by is null) and (decision is null) = (decided_at is null)
        and (decision is not null and decision in ('changed', 'own')) = (decided_setup_id is not null)),
    add constraint prescription_undecided check (state <> 'proposed' or decision is null),
    add constraint prescription_open_decision check (state not in ('approved', 'changed', 'declined', 'own')
        or decision is not null and state = decision),
    add constraint prescription_tried check (state not in ('in trial', 'helped', 'no difference', 'hurt')
        or decision is not null and decision <> 'declined'),
    add constraint prescription_withdrawn check (state <> 'withdrawn' or decision is not distinct from 'own'),
    add constraint prescription_told check ((told_set_id is null) = (told_at is null)),
    add constraint prescription_superseded check ((state = 'superseded') = (superseded_at is not null)
        and (superseded_at is null) = (superseded_because is null) and (superseded_by is null or superseded_at is not null)),
    add constraint prescription_because check (superseded_because in
        ('a newer change', 'a newer set', 'another setup', 'another table', 'a decision waits to be played')),
    add constraint prescription_counts check (count_before between 0 and of_before and count_since between 0 and of_since),
    add constraint prescription_fact check ((fact_count is null) = (fact_of is null) and fact_count between 0 and fact_of),
    add foreign key (club_id, told_set_id, student_id) references break_set (club_id, id, student_id),
    add constraint prescription_newer foreign key (club_id, superseded_by) references prescription (club_id, id)
        deferrable initially deferred;
create unique index prescription_open on prescription (club_id, student_id, feet, corner_in, side_in)
    where state in ('proposed', 'approved', 'changed', 'own', 'in trial');
create index prescription_of_set on prescription (club_id, set_id, created_at);
create index prescription_decided_lately on prescription (club_id, decided_at) where decided_at is not null;

drop policy add on prescription;
create policy add on prescription for insert to breakwright_app
    with check (club_id = (select wall.club()) and case when decision = 'own'
        then (select wall.is_coach()) and decided_by = (select wall.person())
        else decision is null and (select wall.is_adviser()) and student_id = (select wall.person()) end);
grant insert (feet, corner_in, side_in, fact_count, fact_of, state, decision, decided_by, decided_at, decision_note,
        decided_setup_id, superseded_at, superseded_because, superseded_by),
    update (told_set_id, told_at, superseded_because, superseded_by, measure, count_before, of_before, count_since, of_since)
    on prescription to breakwright_app;

-- What asks for a coach's look, of many students' latest advice.
alter table advice
    add column asks_coach boolean not null generated always as (advice @> '{"tell_coach": true}') stored;
alter table desk_seen
    drop constraint desk_seen_reason_check,
    add constraint desk_seen_reason_check check (reason in ('off the table', 'stuck', 'slump', 'idle', 'card', 'asked'));

-- A line of the desk that was marked as looked at can be put back.
create policy remove on desk_seen for delete to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
grant delete on desk_seen to breakwright_app;

-- +goose Down
delete from desk_seen where reason = 'asked';
alter table desk_seen
    drop constraint desk_seen_reason_check,
    add constraint desk_seen_reason_check check (reason in ('off the table', 'stuck', 'slump', 'idle', 'card'));
alter table advice drop column asks_coach;
revoke delete on desk_seen from breakwright_app;
drop policy remove on desk_seen;
drop policy add on prescription;
create policy add on prescription for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_adviser()) and student_id = (select wall.person()));
revoke insert (state, decision, decided_by, decided_at, decision_note, decided_setup_id, superseded_at)
    on prescription from breakwright_app;
drop index prescription_decided_lately, prescription_of_set, prescription_open;
alter table prescription drop constraint prescription_newer;
delete from prescription where to_setup_id is null;
delete from prescription r using prescription n
    where n.club_id = r.club_id and n.set_id = r.set_id and (n.created_at, n.id) > (r.created_at, r.id);
alter table prescription
    drop constraint prescription_state, drop constraint prescription_decision, drop constraint prescription_proposal,
    drop constraint prescription_decided, drop constraint prescription_undecided, drop constraint prescription_open_decision,
    drop constraint prescription_tried, drop constraint prescription_withdrawn, drop constraint prescription_superseded,
    drop constraint prescription_because;
update prescription set state = case when decision is null then 'proposed' when told_set_id is not null then 'in trial' else decision end,
    superseded_at = case when decision is null then superseded_at end
where state = 'superseded';
alter table prescription
    drop column feet, drop column corner_in, drop column side_in, drop column fact_count, drop column fact_of,
    drop column told_set_id, drop column told_at, drop column superseded_because, drop column superseded_by,
    drop column measure, drop column count_before, drop column of_before, drop column count_since, drop column of_since,
    alter column to_setup_id set not null,
    add unique (club_id, set_id),
    add check (state in ('proposed', 'approved', 'changed', 'declined', 'in trial', 'helped', 'no difference', 'hurt')),
    add check (decision in ('approved', 'changed', 'declined')),
    add check (rule <> ''), add check (variable <> ''), add check (reason <> ''),
    add constraint prescription_check check ((state = 'proposed') = (decision is null)),
    add constraint prescription_check1 check ((decision is null) = (decided_by is null) and (decision is null) = (decided_at is null)),
    add constraint prescription_check2 check ((decision is not distinct from 'changed') = (decided_setup_id is not null)),
    add constraint prescription_check3 check (state not in ('approved', 'changed', 'declined') or state = decision),
    add constraint prescription_check4 check (state not in ('in trial', 'helped', 'no difference', 'hurt') or decision <> 'declined'),
    add constraint prescription_check5 check (superseded_at is null or decision is null);
