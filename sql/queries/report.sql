-- name: SumSetsInSpan :many
-- How much the students closed of sets begun in a time; no row for none.
select student_id, count(*)::int as sets, sum(breaks)::int as breaks
from set_tally
where student_id = any(@students::uuid[]) and stint_id is not null
  and started_at >= @since::timestamptz and started_at < @until::timestamptz
group by student_id;
