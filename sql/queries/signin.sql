-- name: HasClub :one
select door.has_club()::boolean;

-- name: SetFirstRun :exec
select door.set_first_run(@token::bytea);

-- name: HasFirstRun :one
select door.has_first_run(@token::bytea)::boolean;

-- name: CreateClub :one
select door.open_club(@token::bytea, @club::uuid, @club_name::text, @club_zone::text,
    @coach::uuid, @coach_name::text, @coach_login::text, @coach_secret::text)::boolean;

-- name: AddFirstRun :exec
select door.add_first_run(@token::bytea, @until::timestamptz);

-- name: FindCoach :one
select f.club_id::uuid as club_id, f.person_id::uuid as person_id, f.role::text as role, f.name::text as name,
    f.secret_hash::text as secret_hash, f.code_made_at::timestamptz as code_made_at, f.second_step::boolean as second_step
from door.find_by_login(@login::text) f;

-- name: FindStudent :one
select f.club_id::uuid as club_id, f.person_id::uuid as person_id, f.role::text as role, f.name::text as name,
    f.secret_hash::text as secret_hash, f.code_made_at::timestamptz as code_made_at, f.second_step::boolean as second_step
from door.find_by_code(@code::text) f;

-- name: TakeNetworkTry :one
select door.take_network_try(@bucket::int, @most::float8, @per_second::float8, @at_time::timestamptz)::boolean;

-- name: ReturnNetworkTry :exec
select door.return_network_try(@bucket::int);

-- name: TakeTry :one
select door.take_try(@club::uuid, @person::uuid, @device::bytea, @at_time::timestamptz, @most_device::int, @most_stranger::int,
    make_interval(secs => @window_seconds::float8), @opens_itself::boolean)::text;

-- name: ReturnTry :exec
select door.return_try(@club::uuid, @person::uuid);

-- name: SettleTry :exec
select door.settle_try(@club::uuid, @person::uuid, @device::bytea, @at_time::timestamptz, @how::text);

-- name: FreePerson :exec
select door.free_person(@person::uuid);

-- name: StartSession :one
select door.begin_session(@token::bytea, @club::uuid, @person::uuid, @device::text, @at_time::timestamptz, @until::timestamptz)::boolean;

-- name: FindSession :one
select f.club_id::uuid as club_id, f.club_name::text as club_name, f.zone::text as zone, f.units::text as units,
    f.person_id::uuid as person_id, f.role::text as role, f.name::text as name, f.side::text as side, f.theme::text as theme,
    f.session_id::uuid as session_id, f.rotated_at::timestamptz as rotated_at, f.expires_at::timestamptz as expires_at
from door.visit_session(@token::bytea, @at_time::timestamptz, make_interval(secs => @idle_seconds::float8)) f;

-- name: RotateSession :one
select door.rotate_session(@token::bytea, @fresh::bytea, @at_time::timestamptz, make_interval(secs => @at_least_seconds::float8))::boolean;

-- name: RevokeSession :exec
select door.revoke_session(@token::bytea);

-- name: RevokeSessions :exec
select door.revoke_sessions(@person::uuid);

-- name: ListOwnSessions :many
select f.id::uuid as id, f.device::text as device, f.created_at::timestamptz as created_at,
    f.last_seen_at::timestamptz as last_seen_at, f.expires_at::timestamptz as expires_at
from door.own_sessions(@at_time::timestamptz, make_interval(secs => @idle_seconds::float8)) f;

-- name: EndOwnSession :exec
select door.end_own_session(@session::uuid);

-- name: EndOtherSessions :exec
select door.end_other_sessions(@kept::uuid, @device::bytea);

-- name: GetOwnSecret :one
select door.own_secret()::text;

-- name: GetOwnUnits :one
select coalesce(units, '')::text from person where club_id = @club and id = @person;

-- name: SetUnits :exec
select door.set_units(@units::text);

-- name: SetTheme :exec
select door.set_theme(@theme::text);

-- name: BeginSecondStep :one
select door.begin_second_step(@fresh::bytea)::boolean;

-- name: GetOwnSecondStep :one
select f.secret::bytea as secret, f.confirmed::boolean as confirmed, f.recovery_codes::int as recovery_codes
from door.own_second_step() f;

-- name: ConfirmSecondStep :one
select door.confirm_second_step(@step::bigint, @codes::bytea[])::boolean;

-- name: DropSecondStep :exec
select door.drop_second_step();

-- name: FindSecondStep :one
select door.find_second_step(@club::uuid, @person::uuid)::bytea;

-- name: UseSecondStep :one
select door.use_second_step(@club::uuid, @person::uuid, @step::bigint)::boolean;

-- name: UseRecoveryCode :one
select door.use_recovery_code(@club::uuid, @person::uuid, @code::bytea)::boolean;

-- name: FindInvite :one
select f.club_name::text as club_name, f.invited_by::text as invited_by from door.find_invite(@token::bytea) f;

-- name: AcceptInvite :one
select coalesce(door.accept_invite(@token::bytea, @coach::uuid, @coach_name::text, @coach_login::text, @coach_secret::text)::text, '')::text;

-- name: SetSecret :one
select door.set_secret(@secret::text)::boolean;

-- name: SetFirstSecret :one
select door.set_first_secret(@secret::text)::boolean;

-- name: ChooseSide :exec
select door.choose_side(@side::text);

-- name: ForgetSecret :exec
select door.forget_secret(@student::uuid);

-- name: SweepAccounts :exec
select door.sweep_accounts();
