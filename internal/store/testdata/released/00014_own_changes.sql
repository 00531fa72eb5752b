-- What the schema at 14 has besides: a change that is the coach's own, drills for a
-- break side, what was done to many students at once, notes.
insert into prescription (club_id, id, set_id, student_id, rule, variable, from_value, to_value, reason, from_setup_id, state, decision,
    decided_by, decided_at, decision_note, decided_setup_id, feet, corner_in, side_in)
    select club_id, pg_temp.id('own'), id, student_id, '', '', '', '', '', setup_id, 'own', 'own', pg_temp.id('coach'), '2026-03-12',
        'From closer.', pg_temp.id('left14'), 8, 4.5, 5
    from break_set where name = 'other table 2';
insert into assignment (club_id, id, drill_id, class_id, side, created_by)
    values (pg_temp.id('club'), pg_temp.id('from the right'), pg_temp.id('drill'), pg_temp.id('class'), 'right', pg_temp.id('coach'));
insert into desk_seen (club_id, student_id, reason, about_id, seen_by)
    values (pg_temp.id('club'), pg_temp.id('trial'), 'asked', pg_temp.id('trial2'), pg_temp.id('coach'));
insert into roster_change (club_id, id, kind, side, made_by) values (pg_temp.id('club'), pg_temp.id('sides'), 'side', 'right', pg_temp.id('coach'));
insert into roster_change_student (club_id, change_id, student_id, side_before)
    values (pg_temp.id('club'), pg_temp.id('sides'), pg_temp.id('waiting'), 'left');
insert into student_note (club_id, student_id, coach_id, body)
    values (pg_temp.id('club'), pg_temp.id('trial'), pg_temp.id('coach'), 'A sore wrist.');
