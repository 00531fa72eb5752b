-- Counts kept beside the breaks, so that a page costs the same after two years
-- as on the first day, and what coaches add to them: break cards, and what was
-- looked at on the desk. The program writes the counts in the same transaction
-- as the breaks; a test recounts them.

-- +goose Up

-- A stint is all of a student's sets in a row under the same setup and table:
-- closed ones with a break. Its id is that of its first set. The latest of a
-- student also says how many sets and breaks came before it, so that totals
-- need no sum.
create table stint (
    club_id          uuid not null references club (id),
    id               uuid not null,
    student_id       uuid not null,
    table_id         uuid not null,
    setup_id         uuid not null, -- of its latest set
    last_set_id      uuid not null,
    first_started_at timestamptz not null,
    last_started_at  timestamptz not null,
    latest           boolean not null,
    sets_before      int not null check (sets_before >= 0),
    breaks_before    int not null check (breaks_before >= 0),
    sets             int not null check (sets >= 1),
    breaks           int not null check (breaks >= sets),
    wing_made        int not null,
    miss_side        int not null,
    miss_foot        int not null,
    miss_kissed      int not null,
    miss_jaws        int not null,
    in_window        int not null,
    scratch_head     int not null,
    scratch_side     int not null,
    scratch_foot     int not null,
    cue_off          int not null,
    dry              int not null,
    balls_off        int not null,
    weak             int not null,
    weak_known       int not null,
    primary key (club_id, id),
    unique (club_id, id, student_id),
    foreign key (club_id, id, student_id) references break_set (club_id, id, student_id),
    foreign key (club_id, last_set_id, student_id) references break_set (club_id, id, student_id),
    foreign key (club_id, table_id) references pool_table (club_id, id),
    foreign key (club_id, setup_id) references setup (club_id, id)
);
create unique index stint_latest on stint (club_id, student_id) where latest;
create index stint_student on stint (club_id, student_id, first_started_at, id);

-- One row for each set, open or closed: its window, the right way round and in
-- inches of its table, and what was counted.
create table set_tally (
    club_id      uuid not null,
    set_id       uuid not null,
    student_id   uuid not null,
    started_at   timestamptz not null, -- as the set's
    stint_id     uuid, -- null while the set is open or has no break
    window_left  float8 not null,
    window_right float8 not null,
    window_head  float8 not null,
    window_foot  float8 not null,
    breaks       int not null default 0 check (breaks >= 0),
    wing_made    int not null default 0 check (wing_made between 0 and breaks),
    miss_side    int not null default 0,
    miss_foot    int not null default 0,
    miss_kissed  int not null default 0,
    miss_jaws    int not null default 0,
    in_window    int not null default 0 check (in_window between 0 and breaks),
    scratch_head int not null default 0,
    scratch_side int not null default 0,
    scratch_foot int not null default 0,
    cue_off      int not null default 0,
    dry          int not null default 0,
    balls_off    int not null default 0, -- breaks in which any ball left the table
    weak         int not null default 0,
    weak_known   int not null default 0,
    primary key (club_id, set_id),
    foreign key (club_id, set_id, student_id) references break_set (club_id, id, student_id),
    foreign key (club_id, stint_id, student_id) references stint (club_id, id, student_id) on delete set null (stint_id)
);
create index set_tally_recent on set_tally (club_id, student_id, started_at desc, set_id desc) where stint_id is not null;
create index set_tally_stint on set_tally (club_id, stint_id);
create index set_tally_off on set_tally (club_id, started_at) where balls_off > 0;

-- A student's own best-known break for one table, as a coach gave it to them;
-- the newest for a table is in force.
create table break_card (
    club_id    uuid not null references club (id),
    id         uuid not null, -- made by the page, so that a second click adds nothing
    student_id uuid not null,
    table_id   uuid not null,
    setup_id   uuid not null,
    set_id     uuid not null, -- the latest set that it rests on
    breaks     int not null check (breaks >= 1),
    wing_made  int not null check (wing_made between 0 and breaks),
    in_window  int not null check (in_window between 0 and breaks),
    issued_by  uuid not null,
    issued_at  timestamptz not null default now(),
    primary key (club_id, id),
    foreign key (club_id, set_id, student_id) references break_set (club_id, id, student_id),
    foreign key (club_id, table_id) references pool_table (club_id, id),
    foreign key (club_id, setup_id) references setup (club_id, id),
    foreign key (club_id, issued_by) references person (club_id, id)
);
create index break_card_student on break_card (club_id, student_id, table_id, issued_at);

-- What a coach has looked at on the desk and wants no more of: the set, the
-- prescription or the assignment that a line was about.
create table desk_seen (
    club_id    uuid not null references club (id),
    student_id uuid not null,
    reason     text not null check (reason in ('off the table', 'stuck', 'slump', 'idle', 'card')),
    about_id   uuid not null,
    seen_by    uuid not null,
    seen_at    timestamptz not null default now(),
    primary key (club_id, student_id, reason, about_id),
    foreign key (club_id, student_id) references person (club_id, id),
    foreign key (club_id, seen_by) references person (club_id, id)
);

-- What the desk asks of sets and prescriptions, however many there are.
create index break_set_started on break_set (club_id, started_at);
create index prescription_tried on prescription (club_id, student_id, decided_at)
    where state in ('helped', 'no difference', 'hurt');
create index prescription_trial on prescription (club_id, student_id, decided_at) where state = 'in trial';

-- +goose StatementBegin
do $$
declare name text;
begin
    foreach name in array array['stint', 'set_tally', 'break_card', 'desk_seen'] loop
        execute format('alter table %I enable row level security', name);
        execute format('alter table %I force row level security', name);
        execute format('create policy keeper on %I to current_user using (true) with check (true)', name);
    end loop;
end $$;
-- +goose StatementEnd

-- Counts change with the breaks, so whoever may change these may change those.
create policy read on stint for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on stint for insert to breakwright_app
    with check (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy change on stint for update to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy remove on stint for delete to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
grant select, insert, delete, update (table_id, setup_id, last_set_id, first_started_at, last_started_at, latest,
        sets_before, breaks_before, sets, breaks, wing_made, miss_side, miss_foot, miss_kissed, miss_jaws, in_window,
        scratch_head, scratch_side, scratch_foot, cue_off, dry, balls_off, weak, weak_known) on stint to breakwright_app;

create policy read on set_tally for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on set_tally for insert to breakwright_app
    with check (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy change on set_tally for update to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
grant select, insert, update (stint_id, breaks, wing_made, miss_side, miss_foot, miss_kissed, miss_jaws, in_window,
        scratch_head, scratch_side, scratch_foot, cue_off, dry, balls_off, weak, weak_known) on set_tally to breakwright_app;

create policy read on break_card for select to breakwright_app
    using (club_id = (select wall.club()) and ((select wall.is_coach()) or student_id = (select wall.person())));
create policy add on break_card for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()) and issued_by = (select wall.person()));
grant select, insert (club_id, id, student_id, table_id, setup_id, set_id, breaks, wing_made, in_window, issued_by)
    on break_card to breakwright_app;

create policy read on desk_seen for select to breakwright_app
    using (club_id = (select wall.club()) and (select wall.is_coach()));
create policy add on desk_seen for insert to breakwright_app
    with check (club_id = (select wall.club()) and (select wall.is_coach()) and seen_by = (select wall.person()));
grant select, insert (club_id, student_id, reason, about_id, seen_by) on desk_seen to breakwright_app;

-- What was recorded before is counted once. The same counting stands in the
-- program, and a test compares the two.

-- A set's window: its drill's, the right way round, carried to its table in
-- proportion; without a drill the standard one.
insert into set_tally (club_id, set_id, student_id, started_at, window_left, window_right, window_head, window_foot)
select b.club_id, b.id, b.student_id, b.started_at,
    case when d.id is null then -l.inches / 8 when s.side = ds.side then d.window_left * f.scale else -d.window_right * f.scale end,
    case when d.id is null then l.inches / 8 when s.side = ds.side then d.window_right * f.scale else -d.window_left * f.scale end,
    case when d.id is null then l.inches / 4 else d.window_head * f.scale end,
    case when d.id is null then l.inches / 2 else d.window_foot * f.scale end
from break_set b
join pool_table t on t.club_id = b.club_id and t.id = b.table_id
join setup s on s.club_id = b.club_id and s.id = b.setup_id
left join drill d on d.club_id = b.club_id and d.id = b.drill_id
left join setup ds on ds.club_id = d.club_id and ds.id = d.setup_id
cross join lateral (select (case t.feet when 7 then 78 when 8 then 92 else 100 end)::float8) as l (inches)
cross join lateral (select l.inches / (case d.feet when 7 then 78 when 8 then 92 else 100 end)::float8) as f (scale);

with seen as (
    select k.*, y.window_left, y.window_right, y.window_head, y.window_foot,
        (string_to_array(s.rack, '-'))[array_position(case s.game
            when 'nine-ball' then array['1', '2L', '2R', '3L', '3C', '3R', '4L', '4R', '5']
            when 'ten-ball' then array['1', '2L', '2R', '3L', '3C', '3R', '4L', '4LC', '4RC', '4R']
            else array['1', '2L', '2R', '3L', '3C', '3R', '4L', '4LC', '4RC', '4R', '5L', '5LC', '5C', '5RC', '5R']
        end, s.wing)]::int as wing_ball,
        case when s.wing like '%R' then 'foot-right' else 'foot-left' end as wing_pocket
    from break k
    join break_set b on b.club_id = k.club_id and b.id = k.set_id
    join setup s on s.club_id = b.club_id and s.id = b.setup_id
    join set_tally y on y.club_id = k.club_id and y.set_id = k.set_id
    where k.deleted_at is null
), looked as (
    select k.*,
        k.balls @> jsonb_build_array(jsonb_build_object('ball', k.wing_ball, 'fate', 'pocketed')) as wing_down,
        k.balls @> jsonb_build_array(jsonb_build_object('ball', k.wing_ball, 'fate', 'pocketed', 'pocket', k.wing_pocket)) as made,
        not k.balls @> '[{"fate": "pocketed"}]' as is_dry
    from seen k
), counted as (
    select k.club_id, k.set_id, count(*)::int as breaks,
        (count(*) filter (where made))::int as wing_made,
        (count(*) filter (where not wing_down and wing_miss = 'side-rail'))::int as miss_side,
        (count(*) filter (where not wing_down and wing_miss = 'foot-rail'))::int as miss_foot,
        (count(*) filter (where not wing_down and wing_miss = 'kissed'))::int as miss_kissed,
        (count(*) filter (where not wing_down and wing_miss = 'jaws'))::int as miss_jaws,
        (count(*) filter (where cue_how = 'stopped' and cue_x between window_left and window_right
            and cue_y between window_head and window_foot))::int as in_window,
        (count(*) filter (where cue_pocket like 'head-%'))::int as scratch_head,
        (count(*) filter (where cue_pocket like 'side-%'))::int as scratch_side,
        (count(*) filter (where cue_pocket like 'foot-%'))::int as scratch_foot,
        (count(*) filter (where cue_how = 'off-table'))::int as cue_off,
        (count(*) filter (where is_dry))::int as dry,
        (count(*) filter (where cue_how = 'off-table' or balls @> '[{"fate": "off"}]'))::int as balls_off,
        (count(*) filter (where is_dry and rails < 4))::int as weak,
        (count(*) filter (where not is_dry or rails is not null))::int as weak_known
    from looked k group by k.club_id, k.set_id
)
update set_tally y set breaks = c.breaks, wing_made = c.wing_made, miss_side = c.miss_side, miss_foot = c.miss_foot,
    miss_kissed = c.miss_kissed, miss_jaws = c.miss_jaws, in_window = c.in_window, scratch_head = c.scratch_head,
    scratch_side = c.scratch_side, scratch_foot = c.scratch_foot, cue_off = c.cue_off, dry = c.dry,
    balls_off = c.balls_off, weak = c.weak, weak_known = c.weak_known
from counted c where c.club_id = y.club_id and c.set_id = y.set_id;

-- Stints, set by set in their order: a set goes on with the stint when table and
-- setup are those of the stint's first set, its speed at most 0.6 mph off or
-- unknown in one of them.
-- +goose StatementBegin
do $$
declare
    one record;
    first record;
    begun record;
    goes_on boolean;
begin
    for one in
        select y.*, b.table_id, b.setup_id, s.game, s.spot, s.rack, s.side, s.wing, s.cue_x, s.cue_y, s.contact,
            s.tip, s.spin, s.speed
        from set_tally y
        join break_set b on b.club_id = y.club_id and b.id = y.set_id
        join setup s on s.club_id = b.club_id and s.id = b.setup_id
        where b.closed_at is not null and y.breaks > 0
        order by y.club_id, y.student_id, y.started_at, y.set_id
    loop
        select t.* into begun from stint t
            where t.club_id = one.club_id and t.student_id = one.student_id and t.latest;
        goes_on := false;
        if begun.id is not null then -- first is set, and of the same student
            goes_on := begun.table_id = one.table_id
            and (first.game, first.spot, first.rack, first.side, first.wing, first.cue_x, first.cue_y, first.contact, first.tip, first.spin)
              = (one.game, one.spot, one.rack, one.side, one.wing, one.cue_x, one.cue_y, one.contact, one.tip, one.spin)
            and coalesce(abs(first.speed - one.speed) <= 0.6, true);
        end if;
        if goes_on then
            update stint t set last_set_id = one.set_id, last_started_at = one.started_at, setup_id = one.setup_id,
                sets = t.sets + 1, breaks = t.breaks + one.breaks, wing_made = t.wing_made + one.wing_made,
                miss_side = t.miss_side + one.miss_side, miss_foot = t.miss_foot + one.miss_foot,
                miss_kissed = t.miss_kissed + one.miss_kissed, miss_jaws = t.miss_jaws + one.miss_jaws,
                in_window = t.in_window + one.in_window, scratch_head = t.scratch_head + one.scratch_head,
                scratch_side = t.scratch_side + one.scratch_side, scratch_foot = t.scratch_foot + one.scratch_foot,
                cue_off = t.cue_off + one.cue_off, dry = t.dry + one.dry, balls_off = t.balls_off + one.balls_off,
                weak = t.weak + one.weak, weak_known = t.weak_known + one.weak_known
            where t.club_id = begun.club_id and t.id = begun.id;
            update set_tally set stint_id = begun.id where club_id = one.club_id and set_id = one.set_id;
        else
            first := one;
            update stint set latest = false where club_id = one.club_id and student_id = one.student_id and latest;
            insert into stint (club_id, id, student_id, table_id, setup_id, last_set_id, first_started_at, last_started_at,
                latest, sets_before, breaks_before, sets, breaks, wing_made, miss_side, miss_foot, miss_kissed, miss_jaws,
                in_window, scratch_head, scratch_side, scratch_foot, cue_off, dry, balls_off, weak, weak_known)
            values (one.club_id, one.set_id, one.student_id, one.table_id, one.setup_id, one.set_id, one.started_at,
                one.started_at, true, coalesce(begun.sets_before + begun.sets, 0), coalesce(begun.breaks_before + begun.breaks, 0),
                1, one.breaks, one.wing_made, one.miss_side, one.miss_foot, one.miss_kissed, one.miss_jaws,
                one.in_window, one.scratch_head, one.scratch_side, one.scratch_foot, one.cue_off, one.dry, one.balls_off,
                one.weak, one.weak_known);
            update set_tally set stint_id = one.set_id where club_id = one.club_id and set_id = one.set_id;
        end if;
    end loop;
end $$;
-- +goose StatementEnd

-- +goose Down
drop index prescription_trial, prescription_tried, break_set_started;
drop table desk_seen, break_card, set_tally, stint;
