-- When the demo's club did what it has done. The store writes the moment of
-- writing; a set is closed some minutes after its last break, the coach decides
-- and answers the same evening, and everybody was there before the first break.
begin;

update break_set set closed_at = started_at + interval '24 minutes' where closed_at is not null;
update break set created_at = coalesce(at, created_at), updated_at = coalesce(at, updated_at);

update advice a set created_at = s.closed_at
from break_set s where s.club_id = a.club_id and s.id = a.set_id;

update prescription p set created_at = s.closed_at,
    decided_at = case when p.decided_at is not null then s.closed_at + interval '70 minutes' end,
    superseded_at = case when p.superseded_at is not null then s.closed_at + interval '2 days' end
from break_set s where s.club_id = p.club_id and s.id = p.set_id;

update message m set
    created_at = s.closed_at + case when m.author_id = m.student_id then interval '6 minutes' else interval '80 minutes' end,
    read_by_coach_at = case when m.read_by_coach_at is not null then s.closed_at + interval '80 minutes' end,
    read_by_student_at = case when m.read_by_student_at is not null then s.closed_at + interval '6 minutes' end
from break_set s where s.club_id = m.club_id and s.id = m.set_id;

update club set created_at = (select min(started_at) - interval '9 days' from break_set);
update person set joined_at = (select min(started_at) - interval '9 days' from break_set) + (joined_at - now());
update class set created_at = (select min(started_at) - interval '9 days' from break_set);
update class_member set joined_at = (select min(started_at) - interval '9 days' from break_set);
update assignment set created_at = (select min(started_at) - interval '2 days' from break_set) + (created_at - now());

commit;
