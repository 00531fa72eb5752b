-- What the schema at 20 has besides: accounts, training without an assignment,
-- drills that ask for more, who saw what, and proposals as data.
update club set units = 'centimetres';
update person set theme = 'dark' where id = pg_temp.id('trial');
insert into sign_in_guard (club_id, person_id, wrong, since) values (pg_temp.id('club'), pg_temp.id('trial'), 2, '2026-03-15');
insert into known_device (club_id, person_id, token_hash, used_at)
    values (pg_temp.id('club'), pg_temp.id('trial'), decode(repeat('03', 32), 'hex'), '2026-03-15');
insert into try_bucket (bucket, tries, at) values (7, 1.5, '2026-03-15');
insert into second_step (club_id, person_id, secret, confirmed_at)
    values (pg_temp.id('club'), pg_temp.id('coach'), decode(repeat('04', 20), 'hex'), '2026-03-15');
insert into recovery_code (club_id, person_id, code_hash) values (pg_temp.id('club'), pg_temp.id('coach'), decode(repeat('05', 32), 'hex'));
insert into coach_invite (club_id, token_hash, invited_by, expires_at)
    values (pg_temp.id('club'), decode(repeat('06', 32), 'hex'), pg_temp.id('coach'), '2026-04-15');
insert into audit_line (club_id, day, person_id, act, place, about_id)
    values (pg_temp.id('club'), '2026-03-15', pg_temp.id('coach'), 'saw', '/students/{student}', pg_temp.id('trial'));
insert into erased_session (token_hash) values (decode(repeat('07', 32), 'hex'));
insert into break_set (club_id, id, student_id, table_id, setup_id, name, planned, started_at, training)
    values (pg_temp.id('club'), pg_temp.id('own training'), pg_temp.id('trial'), pg_temp.id('nine'), pg_temp.id('left14'),
        'trial 3', 10, '2026-03-16', 'From where I like');
update drill set target_shot = 0.4, three_points = true, break_box = 8, watch_path = true;
update prescription set last_set_id = told_set_id where told_set_id is not null;
update prescription set said = '{"reason": {"kind": "misses"}}' where id = pg_temp.id('change waiting1');
insert into set_tally (club_id, set_id, student_id, started_at, window_left, window_right, window_head, window_foot)
    select club_id, id, student_id, started_at, -12, 12, 25, 50 from break_set where name = 'trial 3';
