-- What schema 29 adds, and those after 20: a break that was taken out and put back, a
-- student's word on what a set was told, somebody who was erased.
insert into break (club_id, id, set_id, student_id, number, cue_how, cue_pocket, revision, deleted_at, delete_reason, version_of, was_struck)
    select club_id, pg_temp.id('taken out'), set_id, student_id, number, cue_how, cue_pocket, 1, '2026-03-17', 'a practice stroke', id, true
    from break where id = pg_temp.id('break 4');
insert into word_back (club_id, set_id, student_id, word) values (pg_temp.id('club'), pg_temp.id('trial2'), pg_temp.id('trial'), 'done');
insert into erased_person (id_hash) values (decode(repeat('08', 32), 'hex'));
