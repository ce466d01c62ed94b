#!/bin/bash
# Runs once inside the store's container of docker-compose.yml, when its volume is still empty: makes the account that owns the
# tables, which is no superuser, and what only a superuser may make.
set -euo pipefail
psql -v ON_ERROR_STOP=1 --username "$POSTGRES_USER" --dbname postgres <<'SQL'
\getenv password OWNER_PASSWORD
create role siteprogress_owner login createrole password :'password';
create database siteprogress owner siteprogress_owner;
\connect siteprogress
create extension if not exists postgis;
SQL
