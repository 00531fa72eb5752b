-- name: WriteNote :exec
-- With a change only when the transaction has changed something. About nothing that is
-- not there: the id of who was erased would come back with it.
select door.write_note(@act::text, @place::text, @about::uuid)
where (not @with_change::boolean or pg_current_xact_id_if_assigned() is not null)
    and (@about = '00000000-0000-0000-0000-000000000000' or exists (
        select from person where id = @about union all select from class where id = @about union all select from drill where id = @about
        union all select from break_set where id = @about union all select from prescription where id = @about));

-- name: ListNotes :many
-- The latest first; about nobody in particular means all.
select a.first_at, a.last_at, a.times, a.act, a.place, a.about_id, a.person_id, p.name as person_name,
    coalesce(o.name, c.name, d.name, '')::text as about_name
from audit_line a
join person p on p.club_id = a.club_id and p.id = a.person_id
left join person o on o.club_id = a.club_id and o.id = a.about_id
left join class c on c.club_id = a.club_id and c.id = a.about_id
left join drill d on d.club_id = a.club_id and d.id = a.about_id
where a.last_at < @before and (@everybody::boolean or a.about_id = @about)
order by a.last_at desc, a.act, a.place, a.about_id limit @most;

-- name: EraseStudent :one
select door.erase_student(@student::uuid)::boolean;

-- name: EraseCoach :one
select door.erase_coach(@coach::uuid)::boolean;

-- name: EraseClub :one
select door.erase_club()::boolean;

-- name: GetEverythingOf :one
-- With their classes, of which a person's own rows have the ids alone.
select coalesce(door.everything_of(@person::uuid) || jsonb_build_object('class', coalesce((
    select jsonb_agg(jsonb_build_object('id', c.id, 'name', c.name) order by c.name)
    from class_member m join class c on c.club_id = m.club_id and c.id = m.class_id
    where m.student_id = @person), '[]')), 'null')::jsonb;

-- name: WasErased :one
select door.was_erased(@token::bytea, @person::uuid)::boolean;

-- name: SweepPrivacy :exec
select door.sweep_privacy();
