-- What schema 33 adds: a student's own units.
update person set units = 'centimetres' where id = pg_temp.id('trial');
