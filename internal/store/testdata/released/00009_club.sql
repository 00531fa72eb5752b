-- What a club kept beside its changes when the schema was at 9: of every table a
-- row or more. It comes after before_change_record.sql, whose people and sets these
-- are.
insert into session (token_hash, club_id, person_id, expires_at)
    values (decode(repeat('01', 32), 'hex'), pg_temp.id('club'), pg_temp.id('coach'), now() + interval '30 days');
insert into first_run (token_hash) values (decode(repeat('02', 32), 'hex'));
update person set secret_hash = '$argon2id$v=19$m=8,t=1,p=1$c2FsdA$aGFzaA' where role = 'coach';
update person set code = 'BCDFGHJK' where id = pg_temp.id('trial');
update person set archived_at = '2026-03-20' where id = pg_temp.id('declined');

insert into class (club_id, id, name) values (pg_temp.id('club'), pg_temp.id('class'), 'Thursday evening');
insert into class_member (club_id, class_id, student_id)
    select club_id, pg_temp.id('class'), id from person where role = 'student';
insert into assignment (club_id, id, drill_id, class_id, due_on, note, created_by)
    values (pg_temp.id('club'), pg_temp.id('for all'), pg_temp.id('drill'), pg_temp.id('class'), '2026-04-01', 'Mind the tip.', pg_temp.id('coach')),
        (pg_temp.id('club'), pg_temp.id('for one'), pg_temp.id('drill'), null, null, '', pg_temp.id('coach'));
insert into assignment_student (club_id, assignment_id, student_id)
    values (pg_temp.id('club'), pg_temp.id('for one'), pg_temp.id('trial'));
update break_set set assignment_id = pg_temp.id('for all') where name = 'trial 2';

-- Ten breaks of the set in which a change is tried: made, missed, scratched, off the
-- table, one taken out, one changed by the coach.
insert into break (club_id, id, set_id, student_id, number, at, speed, cue_how, cue_x, cue_y, cue_pocket, wing_miss, cue_path,
    rails, past_string, shot, ran_out, note, balls, revision, deleted_at, delete_reason, edited_by)
select pg_temp.id('club'), pg_temp.id('break ' || n), pg_temp.id('trial2'), pg_temp.id('trial'), n,
    '2026-03-03'::timestamptz + n * interval '2 minutes', case n when 1 then 18.5 end,
    case n when 4 then 'scratch' when 5 then 'off-table' else 'stopped' end,
    case when n not in (4, 5) then -3.5 end, case when n not in (4, 5) then 41 end, case n when 4 then 'side-left' else '' end,
    case when n % 3 > 0 then 'side-rail' else '' end, case n when 4 then 'hit' else '' end, case n when 6 then null else 5 end,
    case n when 7 then 2 end, case n when 1 then 'open' else '' end, case n when 1 then 'yes' else '' end,
    case n when 1 then 'Loud.' else '' end,
    case when n % 3 = 0 then '[{"ball": 8, "fate": "pocketed", "pocket": "foot-left"}]' else '[{"ball": 1, "fate": "rest", "x": -20, "y": 31}]' end::jsonb,
    1, case n when 10 then '2026-03-03'::timestamptz + interval '1 hour' end, case n when 10 then 'The rack was loose.' else '' end,
    case n when 2 then pg_temp.id('coach') end
from generate_series(1, 10) as n;

insert into set_tally (club_id, set_id, student_id, started_at, window_left, window_right, window_head, window_foot)
    select club_id, id, student_id, started_at, -12, 12, 25, 50 from break_set;
insert into stint (club_id, id, student_id, table_id, setup_id, last_set_id, first_started_at, last_started_at, latest, sets_before,
    breaks_before, sets, breaks, wing_made, miss_side, miss_foot, miss_kissed, miss_jaws, in_window, scratch_head, scratch_side,
    scratch_foot, cue_off, dry, balls_off, weak, weak_known)
    select club_id, id, student_id, table_id, setup_id, id, started_at, started_at, true, 1, 10, 1, 9, 3, 6, 0, 0, 0, 7, 0, 1, 0, 1, 6, 0, 0, 8
    from break_set where name = 'trial 2';
update set_tally set stint_id = set_id, breaks = 9, wing_made = 3, miss_side = 6, in_window = 7, scratch_side = 1, cue_off = 1, dry = 6,
    weak_known = 8 where set_id = pg_temp.id('trial2');
insert into message (club_id, id, set_id, student_id, author_id, body)
    values (pg_temp.id('club'), pg_temp.id('question'), pg_temp.id('trial2'), pg_temp.id('trial'), pg_temp.id('trial'), 'Further out?');
insert into break_card (club_id, id, student_id, table_id, setup_id, set_id, breaks, wing_made, in_window, issued_by)
    values (pg_temp.id('club'), pg_temp.id('card'), pg_temp.id('helped'), pg_temp.id('nine'), pg_temp.id('left16'), pg_temp.id('helped3'),
        20, 11, 14, pg_temp.id('coach'));
insert into desk_seen (club_id, student_id, reason, about_id, seen_by)
    values (pg_temp.id('club'), pg_temp.id('trial'), 'off the table', pg_temp.id('trial2'), pg_temp.id('coach'));
insert into club_rule (club_id, revision, rule, step, changed_by)
    values (pg_temp.id('club'), 1, 'unsteady', 2, pg_temp.id('coach')), (pg_temp.id('club'), 2, 'unsteady', null, pg_temp.id('coach')),
        (pg_temp.id('club'), 2, 'wing-miss-balance', 1, pg_temp.id('coach'));
insert into job (club_id, id, asked_by, kind, title, state, run, done, todo, result, file, beat_at, ended_at)
    values (pg_temp.id('club'), pg_temp.id('export'), pg_temp.id('coach'), 'export', 'The whole club', 'done', 1, 9, 9, '{"sets": 1}',
        decode('1f8b', 'hex'), '2026-03-10', '2026-03-10');
