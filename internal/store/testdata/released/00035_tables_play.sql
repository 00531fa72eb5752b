-- What schema 35 adds, and 34: what others' breaks had shown of the tables, and a message
-- to a student without a set.
insert into advice (club_id, set_id, student_id, verdict, advice, rules_version, tables_play)
    values (pg_temp.id('club'), pg_temp.id('trial2'), pg_temp.id('trial'), 'more', '{"verdict": "more"}', '1',
        '{"breaks": 13, "character": [1, 0], "spread": [2, 3], "departures": [-1, 4]}')
    on conflict (club_id, set_id) do update set tables_play = excluded.tables_play;
insert into message (club_id, id, set_id, student_id, author_id, body)
    values (pg_temp.id('club'), pg_temp.id('without a set'), null, pg_temp.id('declined'), pg_temp.id('coach'), 'See you on Thursday.');
