-- name: HasClub :one
select door.has_club()::boolean;

-- name: SetFirstRun :exec
select door.set_first_run(@token::bytea);

-- name: HasFirstRun :one
select door.has_first_run(@token::bytea)::boolean;

-- name: CreateClub :one
select door.open_club(@token::bytea, @club::uuid, @club_name::text, @club_zone::text,
    @coach::uuid, @coach_name::text, @coach_login::text, @coach_secret::text)::boolean;

-- name: FindCoach :one
select f.club_id::uuid as club_id, f.person_id::uuid as person_id, f.role::text as role, f.name::text as name,
    f.secret_hash::text as secret_hash
from door.find_coach(@login::text) f;

-- name: FindStudent :one
select f.club_id::uuid as club_id, f.person_id::uuid as person_id, f.role::text as role, f.name::text as name,
    f.secret_hash::text as secret_hash
from door.find_student(@code::text) f;

-- name: StartSession :one
select door.start_session(@token::bytea, @club::uuid, @person::uuid, @until::timestamptz)::boolean;

-- name: FindSession :one
select f.club_id::uuid as club_id, f.club_name::text as club_name, f.zone::text as zone,
    f.person_id::uuid as person_id, f.role::text as role, f.name::text as name, f.side::text as side,
    f.expires_at::timestamptz as expires_at
from door.find_session(@token::bytea) f;

-- name: RevokeSession :exec
select door.revoke_session(@token::bytea);

-- name: RevokeSessions :exec
select door.revoke_sessions(@person::uuid);

-- name: SetSecret :one
select door.set_secret(@secret::text)::boolean;

-- name: SetFirstSecret :one
select door.set_first_secret(@secret::text)::boolean;

-- name: ChooseSide :exec
select door.choose_side(@side::text);

-- name: ForgetSecret :exec
select door.forget_secret(@student::uuid);

-- name: SweepSessions :exec
select door.sweep_sessions();
