-- name: InsertAssignment :execrows
insert into assignment (club_id, id, drill_id, class_id, side, due_on, note, created_by)
values (@club_id, @id, @drill_id, sqlc.narg(class_id), sqlc.narg(side), sqlc.narg(due_on), @note, @created_by)
on conflict (club_id, id) do nothing;

-- name: InsertAssignmentStudents :exec
insert into assignment_student (club_id, assignment_id, student_id)
select @club_id::uuid, @assignment_id::uuid, unnest(@student_ids::uuid[])
on conflict do nothing;

-- name: GetAssignment :one
select * from assignment where id = @id;

-- name: ListAssignmentStudents :many
select student_id from assignment_student where assignment_id = @assignment_id order by student_id;

-- name: EndAssignment :execrows
update assignment set ended_at = coalesce(ended_at, now()) where id = @id;

-- name: ResumeAssignment :execrows
update assignment set ended_at = null where id = @id;

-- name: ChangeAssignment :execrows
update assignment set due_on = sqlc.narg(due_on), note = @note where id = @id;

-- name: ListAssignments :many
-- Open ones by due day, ended ones the latest first, or both; of one class or of
-- all; some of them at a time. With how many there are of that kind and, counted
-- for those given alone, how many students each is for, and how many of them have
-- closed a set.
with part as (
    select a.id, (count(*) over ())::int as total,
        row_number() over (order by case when sqlc.narg(ended)::boolean then a.ended_at end desc,
            a.due_on nulls last, a.created_at, a.id) as place
    from assignment a
    where (sqlc.narg(ended)::boolean is null or (a.ended_at is not null) = sqlc.narg(ended)::boolean)
      and (sqlc.narg(class_id)::uuid is null or a.class_id = sqlc.narg(class_id)::uuid)
    order by place offset @skip limit sqlc.narg(most)::int
)
select sqlc.embed(a), d.name as drill_name, coalesce(c.name, '') as class_name, part.total,
    (select count(distinct who.student_id) from (
        select m.student_id from class_member m join person p on p.club_id = m.club_id and p.id = m.student_id
            where m.club_id = a.club_id and m.class_id = a.class_id and p.archived_at is null
        union all
        select s.student_id from assignment_student s where s.club_id = a.club_id and s.assignment_id = a.id
    ) who)::int as students,
    (select count(distinct s.student_id) from break_set s
        where s.club_id = a.club_id and s.assignment_id = a.id and s.closed_at is not null)::int as students_done
from part
join assignment a on a.id = part.id
join drill d on d.club_id = a.club_id and d.id = a.drill_id
left join class c on c.club_id = a.club_id and c.id = a.class_id
order by part.place;

-- name: ListAssignmentProgress :many
-- A row for each student the assignment is for, or who did a set of it, with
-- their latest set and what was said about it.
with who as (
    select m.student_id from assignment a join class_member m on m.club_id = a.club_id and m.class_id = a.class_id
        where a.id = @assignment_id
    union
    select s.student_id from assignment_student s where s.assignment_id = @assignment_id
    union
    select b.student_id from break_set b where b.assignment_id = @assignment_id
), done as (
    select s.student_id, s.id, s.started_at, s.closed_at,
        count(s.closed_at) over (partition by s.student_id) as closed,
        (sum((select count(*) from break b where b.club_id = s.club_id and b.set_id = s.id and b.deleted_at is null))
            over (partition by s.student_id)) as breaks,
        row_number() over (partition by s.student_id order by s.started_at desc, s.id desc) as place
    from break_set s where s.assignment_id = @assignment_id
), said as (
    select distinct on (v.student_id) v.student_id, v.verdict, r.id as prescription_id, r.state
    from advice v
    join break_set s on s.club_id = v.club_id and s.id = v.set_id
    left join lateral (select z.id, z.state from prescription z
        where z.club_id = v.club_id and z.set_id = v.set_id and z.state <> 'withdrawn' order by z.created_at desc, z.id desc limit 1) r on true
    where s.assignment_id = @assignment_id
    order by v.student_id, s.started_at desc, s.id desc
)
select p.id, p.name, p.side, coalesce(done.closed, 0)::int as sets_closed, coalesce(done.breaks, 0)::int as breaks,
    done.id as last_set_id, done.started_at as last_started_at, done.closed_at as last_closed_at,
    coalesce(said.verdict, '') as verdict, said.prescription_id, coalesce(said.state, '') as state
from who
join person p on p.id = who.student_id
left join done on done.student_id = p.id and done.place = 1
left join said on said.student_id = p.id
where p.archived_at is null
order by lower(p.name), p.joined_at, p.id;

-- name: ListTasks :many
-- The open assignments of a student, one row each, with the drill as written, how many
-- sets of it they closed, which was the latest and when, and whether the advice on its
-- last set asks for the rack to be checked.
select sqlc.embed(a), sqlc.embed(d), sqlc.embed(s),
    coalesce(closed.sets, 0)::int as sets_closed, closed.closed_at as last_closed_at,
    coalesce(closed.id, '00000000-0000-0000-0000-000000000000')::uuid as last_set_id,
    (coalesce((select v.advice ->> 'check_rack' from break_set b
        join drill e on e.club_id = b.club_id and e.id = b.drill_id
        join advice v on v.club_id = b.club_id and v.set_id = b.id
        where b.club_id = a.club_id and b.student_id = @student_id and e.lineage = d.lineage
        order by b.started_at desc, b.id desc limit 1), '') = 'true')::boolean as check_rack
from assignment a
join drill d on d.club_id = a.club_id and d.id = a.drill_id
join setup s on s.club_id = d.club_id and s.id = d.setup_id
left join class c on c.club_id = a.club_id and c.id = a.class_id
left join lateral (select b.id, b.closed_at, count(*) over () as sets from break_set b
    where b.club_id = a.club_id and b.assignment_id = a.id and b.student_id = @student_id and b.closed_at is not null
    order by b.closed_at desc limit 1) closed on true
where a.ended_at is null and c.archived_at is null
  and (exists (select from assignment_student w where w.club_id = a.club_id and w.assignment_id = a.id
          and w.student_id = @student_id)
    or exists (select from class_member m where m.club_id = a.club_id and m.class_id = a.class_id
          and m.student_id = @student_id))
order by a.due_on nulls last, a.created_at, a.id;

-- name: GetTask :one
-- The same for one assignment, open or not, if it concerns the student.
select sqlc.embed(a), sqlc.embed(d), sqlc.embed(s)
from assignment a
join drill d on d.club_id = a.club_id and d.id = a.drill_id
join setup s on s.club_id = d.club_id and s.id = d.setup_id
where a.id = @assignment_id
  and (exists (select from assignment_student w where w.club_id = a.club_id and w.assignment_id = a.id
          and w.student_id = @student_id)
    or exists (select from class_member m where m.club_id = a.club_id and m.class_id = a.class_id
          and m.student_id = @student_id));
