-- name: SaveWordBack :exec
insert into word_back (club_id, set_id, student_id, word) values (@club_id, @set_id, @student_id, @word)
on conflict (club_id, set_id) do update set word = excluded.word, said_at = now() where word_back.word <> excluded.word;

-- name: DeleteWordBack :exec
delete from word_back where set_id = @set_id;

-- name: GetWordBack :one
select * from word_back where set_id = @set_id;

-- name: GetStandingHurt :one
-- The set after which a student said that it hurts, until they begin another, for which
-- they said that it is over, or close a later one, by whatever clock it began.
select w.set_id
from word_back w
join break_set b on b.club_id = w.club_id and b.id = w.set_id
where w.student_id = @student_id and w.word = 'hurts'
  and not exists (select from break_set later where later.club_id = b.club_id and later.student_id = b.student_id
      and later.started_at > b.started_at and (later.started_at > w.said_at or later.closed_at is not null))
order by b.started_at desc
limit 1;

-- name: ListHurts :many
-- Students who said that it hurts, and whether they have begun a set since, the latest
-- first, but for what a coach has noted since they said it: who says it again stands
-- here again.
select w.student_id, p.name as student_name, w.set_id, w.said_at, b.name as set_name,
    exists (select from break_set later where later.club_id = w.club_id and later.student_id = w.student_id
        and later.started_at > w.said_at) as begun_since
from word_back w
join person p on p.club_id = w.club_id and p.id = w.student_id
join break_set b on b.club_id = w.club_id and b.id = w.set_id
where w.word = 'hurts' and w.said_at >= @since::timestamptz and p.archived_at is null
  and not exists (select from desk_seen e where e.club_id = w.club_id and e.student_id = w.student_id
      and e.reason = 'hurts' and e.about_id = w.set_id and e.seen_at >= w.said_at)
order by w.said_at desc, w.set_id;
