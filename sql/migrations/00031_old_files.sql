-- Files of exports and imports hold names and breaks. They wait a month for somebody to
-- come back for them; until now they went only when a coach of the club began another,
-- and one whose process had ended never went.

-- +goose Up
-- +goose StatementBegin
-- A year and a month of lines are kept, a month of files; a phone that was away for
-- longer than its cookie lives has nothing to be told.
create or replace function door.sweep_privacy() returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.audit_line where day < (now() - interval '396 days')::date;
    delete from public.erased_session where erased_at < now() - interval '200 days';
    delete from public.job where created_at < now() - interval '30 days'
        and (state <> 'running' or beat_at < now() - interval '1 day');
$$;
-- +goose StatementEnd

-- +goose Down
-- +goose StatementBegin
create or replace function door.sweep_privacy() returns void
language sql security definer set search_path = pg_catalog, pg_temp as $$
    delete from public.audit_line where day < (now() - interval '396 days')::date;
    delete from public.erased_session where erased_at < now() - interval '200 days';
$$;
-- +goose StatementEnd
