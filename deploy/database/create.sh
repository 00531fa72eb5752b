#!/usr/bin/env bash
# Runs once, when the database's volume is new: PostgreSQL's image runs what is
# in /docker-entrypoint-initdb.d. The program gets a role and a database of its
# own, and the role is not a superuser: PostgreSQL does not hold superusers to
# the rules that keep clubs apart.
set -euo pipefail
psql --no-psqlrc --set=ON_ERROR_STOP=1 --username="$POSTGRES_USER" --dbname=postgres \
  --set=password="$BREAKWRIGHT_DB_PASSWORD" <<'SQL'
create role breakwright login createrole password :'password';
create database breakwright owner breakwright;
SQL
