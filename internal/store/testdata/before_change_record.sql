-- A club as it was kept before migration 13, with changes in every state and as
-- they lingered then: several open at once, approved and left. Each student
-- carries the name of their case.
create function pg_temp.id(name text) returns uuid language sql immutable as 'select md5(name)::uuid';

insert into club (id, name) values (pg_temp.id('club'), 'Harbour Lane');
insert into person (club_id, id, role, name, login) values (pg_temp.id('club'), pg_temp.id('coach'), 'coach', 'Ines', 'ines');
insert into person (club_id, id, role, name, side)
select pg_temp.id('club'), pg_temp.id(name), 'student', name, 'left'
from unnest(array['waiting', 'replaced', 'several', 'trial', 'helped', 'other table', 'other setup', 'declined', 'not heard']) as name;
insert into pool_table (club_id, id, name, feet, corner_in, side_in) values
    (pg_temp.id('club'), pg_temp.id('nine'), 'North', 9, 4.5, 5), (pg_temp.id('club'), pg_temp.id('eight'), 'South', 8, 4.5, 5);
-- The cue ball 18, 16, 14 and 20 inches out, from the left and from the right.
insert into setup (club_id, id, game, spot, rack, side, wing, cue_x, cue_y, contact, tip, spin, speed)
select pg_temp.id('club'), pg_temp.id(side || out), 'nine-ball', 'head', '1-3-2-8-9-5-6-4-7', side,
    case side when 'left' then '3L' else '3R' end, case side when 'left' then -out else out end, 25, 0, -0.1, 0, 18
from unnest(array['left', 'right']) as side, unnest(array[18, 16, 14, 20]) as out;
insert into drill (club_id, id, lineage, name, feet, corner_in, side_in, setup_id, breaks, window_left, window_right,
    window_head, window_foot, target_wing, target_window)
values (pg_temp.id('club'), pg_temp.id('drill'), pg_temp.id('drill'), 'Find the wing ball', 9, 4.5, 5, pg_temp.id('left18'), 10,
    -12, 12, 25, 50, 0.5, 0.5);

create function pg_temp.played(who text, day int, board text, far int) returns void language sql as $$
    insert into break_set (club_id, id, student_id, drill_id, table_id, setup_id, name, planned, started_at, closed_at)
    values (pg_temp.id('club'), pg_temp.id(who || day), pg_temp.id(who), pg_temp.id('drill'), pg_temp.id(board),
        pg_temp.id('left' || far), who || ' ' || day, 10, '2026-03-01'::timestamptz + day * interval '1 day',
        '2026-03-01'::timestamptz + day * interval '1 day' + interval '24 minutes')
$$;
select pg_temp.played(who, 1, 'nine', 18)
from unnest(array['waiting', 'replaced', 'several', 'trial', 'helped', 'other table', 'other setup', 'declined', 'not heard']) as who;
select pg_temp.played('replaced', 2, 'nine', 18), pg_temp.played('several', 2, 'nine', 18), pg_temp.played('trial', 2, 'nine', 14),
    pg_temp.played('helped', 2, 'nine', 16), pg_temp.played('helped', 3, 'nine', 16), pg_temp.played('other table', 2, 'eight', 18),
    pg_temp.played('other setup', 2, 'nine', 16), pg_temp.played('other setup', 3, 'nine', 20), pg_temp.played('not heard', 2, 'nine', 18);

insert into advice (club_id, set_id, student_id, verdict, advice, rules_version)
select pg_temp.id('club'), id, student_id, 'change',
    '{"findings": [{"rule": "wing-miss-balance", "count": 6, "of": 8, "fired": true}]}', '1'
from break_set where name like '% 1';
insert into advice (club_id, set_id, student_id, verdict, advice, rules_version) values
    (pg_temp.id('club'), pg_temp.id('trial2'), pg_temp.id('trial'), 'more',
     '{"follow_up": {"measure": "wing ball", "count_before": 2, "of_before": 10, "count_after": 3, "of_after": 10, "outcome": "in trial"}}', '1'),
    (pg_temp.id('club'), pg_temp.id('helped2'), pg_temp.id('helped'), 'more',
     '{"follow_up": {"measure": "wing ball", "count_before": 2, "of_before": 10, "count_after": 5, "of_after": 10, "outcome": "in trial"}}', '1'),
    (pg_temp.id('club'), pg_temp.id('helped3'), pg_temp.id('helped'), 'keep',
     '{"follow_up": {"measure": "wing ball", "count_before": 2, "of_before": 10, "count_after": 11, "of_after": 20, "outcome": "helped"}}', '1');

create function pg_temp.change(who text, day int, became text, decided text, chosen int) returns void language sql as $$
    insert into prescription (club_id, id, set_id, student_id, rule, variable, from_value, to_value, unit, reason, from_setup_id,
        to_setup_id, state, decision, decided_by, decided_at, decided_setup_id, created_at)
    select pg_temp.id('club'), pg_temp.id('change ' || who || day), s.id, s.student_id, 'wing-miss-balance', 'place', '-18', '-16', 'in',
        'Six of eight misses met the side rail first.', pg_temp.id('left18'), pg_temp.id('left16'), became, decided,
        case when decided <> '' then pg_temp.id('coach') end, case when decided <> '' then s.closed_at + interval '1 hour' end,
        case when chosen > 0 then pg_temp.id('left' || chosen) end, s.closed_at
    from break_set s where s.id = pg_temp.id(who || day)
$$;
select pg_temp.change('waiting', 1, 'proposed', null, 0), pg_temp.change('replaced', 1, 'proposed', null, 0),
    pg_temp.change('replaced', 2, 'proposed', null, 0), pg_temp.change('several', 1, 'approved', 'approved', 0),
    pg_temp.change('several', 2, 'changed', 'changed', 14), pg_temp.change('trial', 1, 'in trial', 'changed', 14),
    pg_temp.change('helped', 1, 'helped', 'approved', 0), pg_temp.change('other table', 1, 'approved', 'approved', 0),
    pg_temp.change('other setup', 1, 'in trial', 'approved', 0), pg_temp.change('declined', 1, 'declined', 'declined', 0),
    pg_temp.change('not heard', 1, 'approved', 'approved', 0);
update prescription set superseded_at = '2026-03-03' where id = pg_temp.id('change replaced1');
