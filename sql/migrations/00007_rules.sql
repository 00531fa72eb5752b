-- What a club has set otherwise in the adviser's rules. Nothing is ever
-- overwritten: each change of the rules is a revision, counted from 1 in every
-- club, with one row for each rule that it touched. What is in force is the
-- latest row of each rule; what was in force when an advice was given is the
-- latest one up to the revision that the advice names. A null is as the rule
-- comes, so a row of nulls takes a rule back to the standard.

-- +goose Up
create table club_rule (
    club_id    uuid not null references club (id),
    revision   int  not null check (revision >= 1),
    rule       text not null check (char_length(rule) between 1 and 60), -- advice.Name
    speaks     boolean, -- false: switched off
    line       float8 check (line >= 0 and line < 1),
    certainty  float8 check (certainty > 0.5 and certainty < 1),
    onward     float8 check (onward > 0.5 and onward < 1),
    step       float8 check (step > 0 and step <= 100), -- in the rule's own unit
    min_breaks int    check (min_breaks between 0 and 500),
    changed_by uuid not null,
    changed_at timestamptz not null default now(),
    primary key (club_id, revision, rule),
    foreign key (club_id, changed_by) references person (club_id, id)
);
create index club_rule_latest on club_rule (club_id, rule, revision);

-- Coaches read and set them; the adviser reads them when a set is closed.
alter table club_rule enable row level security;
alter table club_rule force row level security;
create policy keeper on club_rule to current_user using (true) with check (true);
create policy read on club_rule for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or (select wall.is_adviser())));
create policy add on club_rule for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()) and changed_by = (select wall.person()));
grant select, insert (club_id, revision, rule, speaks, line, certainty, onward, step, min_breaks, changed_by)
    on club_rule to breakwright_app;

-- +goose Down
drop table club_rule;
