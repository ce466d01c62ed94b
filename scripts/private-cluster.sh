#!/usr/bin/env bash
# The private PostgreSQL of this checkout: reached through a socket in a folder only the server's user may enter, no TCP.
#
#   scripts/private-cluster.sh start [STATE_FOLDER]    the lasting cluster that ./run uses
#   scripts/private-cluster.sh stop [STATE_FOLDER]
#   scripts/private-cluster.sh status [STATE_FOLDER]
#   scripts/private-cluster.sh psql [STATE_FOLDER] [-- ARGUMENTS]   a prompt as the owner of the tables
#   scripts/private-cluster.sh test-start [FOLDER|new] a throw-away cluster for tests; prints the variables tests read
#   scripts/private-cluster.sh test-stop [FOLDER]      stops it and deletes it
#   scripts/private-cluster.sh test-kill FOLDER        kills it, as a power cut would
#
# A cluster's folder holds: data/ (the store), passwords (0600), server.log, socket-folder (where the socket is).
set -euo pipefail
. "$(dirname "${BASH_SOURCE[0]}")/common.sh"
. "$(dirname "${BASH_SOURCE[0]}")/packages.sh"

# PostgreSQL refuses to run as root, so for root the server is another user's: the data folder's owner, or postgres.
server_user() { # CLUSTER_FOLDER
  local owner
  if ! is_root; then
    id -un
    return
  fi
  owner=$(stat -c %U "$1/data" 2>/dev/null || echo root)
  if [ "$owner" = root ] || [ "$owner" = UNKNOWN ]; then owner=postgres; fi
  echo "$owner"
}

as_server() { # CLUSTER_FOLDER COMMAND...
  local user
  user=$(server_user "$1")
  shift
  # The server's user may not be allowed to stand in the caller's folder.
  if is_root; then (cd / && exec runuser -u "$user" -- "$@"); else (cd / && exec "$@"); fi
}

# Where the lasting cluster lies: under the state folder, or, where root's server user cannot enter that, in the system's
# state directory under the checkout's name.
cluster_folder() { # STATE_FOLDER
  local folder=$1/cluster
  if is_root && ! server_can_enter "$1"; then
    folder=/var/lib/siteprogress/$(basename "$checkout")-$(printf '%s' "$1" | sha256sum | cut -c1-12)
  fi
  echo "$folder"
}

server_can_enter() { # FOLDER
  local user
  user=$(server_user "$1/cluster")
  id "$user" >/dev/null 2>&1 || fail "The user $user, whom PostgreSQL's package makes, does not exist; PostgreSQL cannot run as root."
  (cd / && runuser -u "$user" -- test -x "$1")
}

prepare_cluster_folder() { # CLUSTER_FOLDER
  mkdir -p "$1"
  chmod 700 "$1"
  if is_root; then chown "$(server_user "$1")" "$1"; fi
  [ -O "$1" ] || is_root || fail "The folder $1 belongs to another user; start as that user, or choose another folder with --data."
  if [ -d "$1/data" ] && ! is_root && [ ! -O "$1/data" ]; then
    fail "The store in $1 belongs to the user $(stat -c %U "$1/data"), because it was made by root; start as root again, or choose another folder with --data."
  fi
}

# The programs that fit the data folder: its own major version, or the newest when it is still to be made.
programs_for() { # CLUSTER_FOLDER
  local wanted programs
  wanted=$(as_server "$1" cat "$1/data/PG_VERSION" 2>/dev/null || true)
  programs=$(postgres_programs "$wanted")
  [ -n "$programs" ] || {
    [ -z "$wanted" ] || fail "The store in $1 was written by PostgreSQL $wanted, which is not installed here with PostGIS; install the package postgresql-$wanted-postgis-3, or choose another folder with --data."
    fail "PostgreSQL with PostGIS is missing: install the package postgresql-15-postgis-3."
  }
  echo "$programs"
}

socket_folder() { cat "$1/socket-folder" 2>/dev/null || true; }

# A folder for the socket: short, as a socket's path may have 107 bytes, and closed to all but the server's user.
make_socket_folder() { # CLUSTER_FOLDER
  local folder parent
  folder=$(socket_folder "$1")
  if [ -n "$folder" ] && [ -d "$folder" ] && [ "$(stat -c '%U %a' "$folder")" = "$(server_user "$1") 700" ]; then return; fi
  for parent in "${XDG_RUNTIME_DIR:-}" /run /tmp; do
    if [ -n "$parent" ] && [ -w "$parent" ] && { ! is_root || as_server "$1" test -x "$parent"; }; then break; fi
  done
  folder=$(mktemp -d "$parent/siteprogress-XXXXXX")
  [ "${#folder}" -le 85 ] || fail "The folder $folder is too long a path for a socket; set XDG_RUNTIME_DIR to a shorter one."
  if is_root; then chown "$(server_user "$1")" "$folder"; fi
  printf '%s\n' "$folder" >"$1/socket-folder"
}

random_password() { head -c 24 /dev/urandom | base64 | tr '+/' 'ab' | tr -d '='; }

make_passwords() { # CLUSTER_FOLDER [ONE_FOR_ALL]
  local one
  [ ! -s "$1/passwords" ] || return 0
  one=${2:+$(random_password)}
  (
    umask 077
    printf '%s=%s\n' admin "${one:-$(random_password)}" owner "${one:-$(random_password)}" web "${one:-$(random_password)}" >"$1/passwords.new"
  )
  mv "$1/passwords.new" "$1/passwords"
}

password_of() { sed -n "s/^$2=//p" "$1/passwords"; } # CLUSTER_FOLDER admin|owner|web

connection_string() { # CLUSTER_FOLDER admin|owner|web DATABASE
  printf 'Host=%s;Port=5432;Database=%s;Username=siteprogress_%s;Password=%s' "$(socket_folder "$1")" "$3" "$2" "$(password_of "$1" "$2")"
}

run_psql() { # CLUSTER_FOLDER admin|owner DATABASE ARGUMENTS...
  local folder=$1 account=$2 database=$3 programs
  shift 3
  programs=$(programs_for "$folder")
  PGPASSWORD=$(password_of "$folder" "$account") PGCONNECT_TIMEOUT=10 "$programs/psql" -X -q -v ON_ERROR_STOP=1 \
    -h "$(socket_folder "$folder")" -p 5432 -U "siteprogress_$account" -d "$database" "$@"
}

make_data_folder() { # CLUSTER_FOLDER PROGRAMS durable|throw-away
  local folder=$1 password_file log=$1/initdb.log options=()
  [ "$3" = durable ] || options+=(--no-sync)
  # initdb reads the password as the server's user, from a file only that user may read. A half-made folder from an earlier
  # attempt is not a store yet: it gets its final name only when it is whole.
  as_server "$folder" rm -rf "$folder/data.new"
  password_file=$(mktemp "$folder/first-password-XXXXXX")
  password_of "$folder" admin >"$password_file"
  if is_root; then chown "$(server_user "$folder")" "$password_file"; fi
  as_server "$folder" "$2/initdb" -D "$folder/data.new" -U siteprogress_admin -A scram-sha-256 --pwfile="$password_file" \
    -E UTF8 --locale=C.UTF-8 --data-checksums --no-instructions "${options[@]}" >"$log" 2>&1 </dev/null || {
    rm -f "$password_file"
    fail_naming_a_full_disk "$log" "$folder" "PostgreSQL could not make its data folder in $folder."
  }
  rm -f "$password_file"
  settings_of "$3" | as_server "$folder" tee -a "$folder/data.new/postgresql.conf" >/dev/null
  as_server "$folder" mv "$folder/data.new" "$folder/data"
}

settings_of() { # durable|throw-away
  cat <<SETTINGS
listen_addresses = ''
port = 5432
max_connections = 200
shared_buffers = 256MB
timezone = 'UTC'
log_timezone = 'UTC'
jit = off
SETTINGS
  if [ "$1" = throw-away ]; then
    # Without fsync a power cut may lose what was committed; but a server that a test kills must not, so a commit is still
    # handed to the system before it is answered.
    printf '%s\n' 'fsync = off' 'synchronous_commit = on' 'full_page_writes = off' 'max_wal_size = 4GB' 'autovacuum_naptime = 5min'
  else
    printf '%s\n' 'fsync = on' 'synchronous_commit = on' 'full_page_writes = on'
  fi
}

# Processes of a server on this data folder, told by their working folder: PostgreSQL's own file of process numbers outlives a
# kill -9, and its number may by then be another program's. A zombie has no working folder and does not count.
server_processes() { # CLUSTER_FOLDER
  local process data
  data=$(cd / && readlink -f "$1/data")
  for process in /proc/[0-9]*; do
    if [ "$(readlink "$process/cwd" 2>/dev/null)" = "$data" ]; then basename "$process"; fi
  done
}

server_answers() { # CLUSTER_FOLDER PROGRAMS
  local socket
  socket=$(socket_folder "$1")
  [ -n "$socket" ] && "$2/pg_isready" -q -t 3 -h "$socket" -p 5432
}

# After a kill -9 the server's children may live on for a moment. They must be gone before a new server touches the data.
clear_killed_server() { # CLUSTER_FOLDER
  local attempt process left
  for attempt in $(seq 1 60); do
    left=$(server_processes "$1")
    [ -n "$left" ] || break
    if [ "$attempt" = 20 ]; then
      # SIGQUIT is PostgreSQL's immediate shutdown; the log replays what was committed.
      for process in $left; do kill -QUIT "$process" 2>/dev/null || true; done
    fi
    sleep 0.5
  done
  [ -z "$(server_processes "$1")" ] || fail "A server that was killed still holds the store in $1 (processes: $(server_processes "$1" | xargs)); end them and start again."
  as_server "$1" rm -f "$1/data/postmaster.pid"
  local socket
  socket=$(socket_folder "$1")
  if [ -n "$socket" ]; then rm -f "$socket/.s.PGSQL.5432" "$socket/.s.PGSQL.5432.lock"; fi
}

start_cluster() { # CLUSTER_FOLDER durable|throw-away [ONE_PASSWORD_FOR_ALL_ACCOUNTS]
  local folder=$1 kind=$2 one=${3:-} programs log=$1/server.log
  prepare_cluster_folder "$folder"
  programs=$(programs_for "$folder")
  make_passwords "$folder" "$one"
  if as_server "$folder" test -s "$folder/data/PG_VERSION"; then
    if server_answers "$folder" "$programs"; then
      make_first_database "$folder"
      return
    fi
    clear_killed_server "$folder"
  else
    make_data_folder "$folder" "$programs" "$kind"
  fi
  make_socket_folder "$folder"
  keep_log_small "$log"
  # Every descriptor above standard error is closed: the server outlives this script and must not hold its locks.
  as_server "$folder" "$programs/pg_ctl" -D "$folder/data" -l "$log" -s -w -t 120 -o "-k '$(socket_folder "$folder")'" start \
    >"$folder/start.log" 2>&1 </dev/null 8>&- 9>&- ||
    fail_naming_a_full_disk "$log" "$folder" "PostgreSQL did not start."
  make_first_database "$folder"
}

# The owner of the tables is no superuser, so what only a superuser may do (PostGIS, the database itself) is done here.
make_first_database() { # CLUSTER_FOLDER
  local folder=$1 log=$1/first-database.log
  {
    # By the environment, as a process's arguments can be read by everybody.
    OWNER_PASSWORD=$(password_of "$folder" owner) run_psql "$folder" admin postgres <<'SQL' &&
\getenv password OWNER_PASSWORD
set client_min_messages = warning;
select 'create role siteprogress_owner login createrole' where not exists (select from pg_roles where rolname = 'siteprogress_owner') \gexec
alter role siteprogress_owner password :'password';
select 'create database siteprogress owner siteprogress_owner' where not exists (select from pg_database where datname = 'siteprogress') \gexec
SQL
      run_psql "$folder" admin siteprogress -c 'set client_min_messages = warning' -c 'create extension if not exists postgis'
  } >"$log" 2>&1 || fail_naming_a_full_disk "$log" "$folder" "The first database could not be made."
}

stop_cluster() { # CLUSTER_FOLDER
  local folder=$1 programs
  as_server "$folder" test -s "$folder/data/PG_VERSION" 2>/dev/null || return 0
  if [ -n "$(server_processes "$folder")" ]; then
    programs=$(programs_for "$folder")
    as_server "$folder" "$programs/pg_ctl" -D "$folder/data" -s -m fast -w -t 60 stop >"$folder/stop.log" 2>&1 </dev/null ||
      fail_naming_a_full_disk "$folder/stop.log" "$folder" "PostgreSQL did not stop."
  fi
  clear_killed_server "$folder"
  local socket
  socket=$(socket_folder "$folder")
  if [ -n "$socket" ]; then rmdir "$socket" 2>/dev/null || true; fi
  rm -f "$folder/socket-folder"
}

# Throw-away clusters lie in a folder of their own, so that any number of them run side by side.
make_throw_away_folder() {
  local folder
  folder=$(mktemp -d /tmp/siteprogress-test-XXXXXX)
  chmod 711 "$folder"
  echo "$folder"
}

# A script holds a lock on its folder while it lives, by a descriptor it closes for what it starts; by that a later one knows
# which clusters were left by killed scripts, and deletes them.
hold_throw_away() { # FOLDER
  exec 8>>"$1/lock"
  flock 8
}

sweep_killed_throw_aways() {
  local folder
  for folder in /tmp/siteprogress-test-*; do
    if [ -O "$folder" ] && [ -e "$folder/lock" ]; then
      (flock --nonblock 9 && delete_throw_away "$folder") 9>>"$folder/lock" || true
    fi
  done
}

delete_throw_away() { # FOLDER
  local cluster
  case $1 in /tmp/siteprogress-test-*) ;; *) fail "$1 is not the folder of a throw-away cluster." ;; esac
  for cluster in "$1"/cluster "$1"/*/cluster; do
    [ ! -d "$cluster" ] || (stop_cluster "$cluster")
  done
  rm -rf "$1"
}

print_test_variables() { # FOLDER
  printf "export SITEPROGRESS_TEST_CLUSTER='%s'\n" "$(connection_string "$1/cluster" admin postgres)"
  printf "export SITEPROGRESS_TEST_CLUSTER_FOLDER='%s'\n" "$1"
}

test_start() { # [FOLDER|new]
  local folder=${1:-} remembered=$checkout/.siteprogress/test-cluster-folder
  if [ "$folder" = new ]; then
    # Inside the folder of the ./test that asks, so that it goes when that goes.
    if [ -n "${SITEPROGRESS_TEST_FOLDER:-}" ]; then
      folder=$(mktemp -d "$SITEPROGRESS_TEST_FOLDER/own-XXXXXX")
      chmod 711 "$folder"
    else
      folder=$(make_throw_away_folder)
    fi
  elif [ -z "$folder" ]; then
    mkdir -p "$checkout/.siteprogress"
    folder=$(cat "$remembered" 2>/dev/null || true)
    if [ -z "$folder" ] || [ ! -d "$folder/cluster" ] || [ ! -O "$folder" ]; then
      folder=$(make_throw_away_folder)
      printf '%s\n' "$folder" >"$remembered"
    fi
  fi
  start_cluster "$folder/cluster" throw-away one-password
  print_test_variables "$folder"
}

test_stop() { # [FOLDER]
  local remembered=$checkout/.siteprogress/test-cluster-folder folder=${1:-}
  folder=${folder:-$(cat "$remembered" 2>/dev/null || true)}
  [ -n "$folder" ] || fail "No throw-away cluster of this checkout is known."
  delete_throw_away "$folder"
  if [ "$(cat "$remembered" 2>/dev/null)" = "$folder" ]; then rm -f "$remembered"; fi
}

# What a power cut does to the server: every process ends at once, without a word to anybody.
test_kill() { # FOLDER
  local process
  case $1 in /tmp/siteprogress-test-*) ;; *) fail "$1 is not the folder of a throw-away cluster." ;; esac
  for process in $(server_processes "$1/cluster" | sort -n); do kill -KILL "$process" 2>/dev/null || true; done
}

private_cluster_command() {
  local command=${1:-} state=$checkout/.siteprogress folder
  [ $# = 0 ] || shift
  case $command in
    start | stop | status | psql)
      if [ $# != 0 ] && [ "$1" != -- ]; then
        state=$(readlink -m "$1")
        shift
      fi
      [ "${1:-}" != -- ] || shift
      mkdir -p "$state"
      folder=$(cluster_folder "$state")
      ;;
  esac
  case $command in
    start) start_cluster "$folder" durable ;;
    stop) stop_cluster "$folder" ;;
    status)
      if [ -d "$folder/data" ] && server_answers "$folder" "$(programs_for "$folder")"; then
        echo "running, data in $folder, socket in $(socket_folder "$folder")"
      else
        echo "not running, data in $folder"
        return 3
      fi
      ;;
    psql) run_psql "$folder" owner siteprogress "$@" ;;
    test-start) test_start "$@" ;;
    test-stop) test_stop "$@" ;;
    test-kill) test_kill "$@" ;;
    *) sed -n '2,12s/^# \{0,1\}//p' "${BASH_SOURCE[0]}" >&2 && return 2 ;;
  esac
}

if [ "${BASH_SOURCE[0]}" = "$0" ]; then private_cluster_command "$@"; fi
