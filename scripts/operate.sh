# shellcheck shell=bash disable=SC2034,SC2154
# What an operator does beside serving: one command of the application, a backup, a restore. Sourced by ./run.
# A store that ./run serves is used as it runs; one that stands still is started for the command and stopped after it.

operate() { # COMMAND ARGUMENTS...
  case $1 in
    back-up | restore) [ $# = 2 ] || fail "use: ./run $1 FILE.tar [--data FOLDER]" ;;
  esac
  case $1 in
    restore) restore_backup "$2" ;;
    back-up)
      check_backup_name "$2"
      open_store
      make_backup "$2"
      ;;
    # These ask no store.
    help | read-log | read-files) command_of_application "$@" ;;
    *)
      open_store
      command_of_application "$@"
      ;;
  esac
}

command_of_application() {
  # Links are printed with the address that ./run serves at.
  if [ -s "$state/address" ]; then SiteProgress__Address=$(cat "$state/address") && export SiteProgress__Address; fi
  # In the caller's folder, so that files are named as the caller sees them.
  (cd "$started_in" && exec dotnet "$published_web/SiteProgress.Web.dll" "$@" 8>&-)
}

open_store() {
  if [ -n "$(setting ConnectionStrings Web)" ]; then
    choose_store
    return
  fi
  cluster=$(cluster_folder "$state")
  if [ -d "$cluster" ] && as_server "$cluster" test -s "$cluster/data/PG_VERSION" && server_answers "$cluster" "$(programs_for "$cluster")"; then
    ConnectionStrings__Owner=$(connection_string "$cluster" owner siteprogress)
    ConnectionStrings__Web=$(connection_string "$cluster" web siteprogress)
    export ConnectionStrings__Owner ConnectionStrings__Web SiteProgress__PrivateCluster=true
    # ./run, which started it, stops it.
    cluster_is_ours=''
    return
  fi
  take_turn
  start_private_store
  forget_half_loaded_demo
  migrate_store
}

# A file as the caller names it, from the caller's folder.
named() { # FILE
  case $1 in /*) printf '%s\n' "$1" ;; *) printf '%s\n' "$started_in/$1" ;; esac
}

check_backup_name() { # FILE
  local file
  file=$(named "$1")
  [ ! -e "$file" ] || fail "$file is there already; a backup is not written over another. Choose another name."
  [ -w "$(dirname "$file")" ] || fail "The folder $(dirname "$file") cannot be written."
}

# The folder the chain heads lie in is copied before the store: a head kept that the backup does not hold would look like a
# record that was lost.
make_backup() { # FILE
  local file work
  [ -n "$cluster" ] || fail "ConnectionStrings:Web names a PostgreSQL of yours: back it up by its own means, and copy the folder $SiteProgress__DataFolder with it, before the store."
  file=$(named "$1")
  work=$(mktemp -d "$state/back-up-XXXXXX")
  chmod 700 "$work"
  cp -a "$state/kept" "$work/kept"
  if ! PGPASSWORD=$(password_of "$cluster" admin) "$(programs_for "$cluster")/pg_dump" -h "$(socket_folder "$cluster")" -p 5432 \
    -U siteprogress_admin -d siteprogress --format=custom >"$work/store.dump" 2>"$state/logs/back-up.log"; then
    rm -rf "$work"
    fail_naming_a_full_disk "$state/logs/back-up.log" "$state" "The backup could not be made."
  fi
  if ! (umask 077 && tar -C "$work" -cf "$file.part" store.dump kept); then
    rm -rf "$work" "$file.part"
    fail "The backup could not be written to $file."
  fi
  rm -rf "$work"
  mv "$file.part" "$file"
  say "The backup is $file. It holds accounts and records: keep it as you keep those."
}

restore_backup() { # FILE
  local file work
  file=$(named "$1")
  [ -z "$(setting ConnectionStrings Web)" ] || fail "ConnectionStrings:Web names a PostgreSQL of yours; a backup of ./run is restored into its private store only."
  [ -r "$file" ] || fail "There is no file $file, or it may not be read."
  take_turn
  cluster=$(cluster_folder "$state")
  if [ -e "$cluster/data" ] || [ -n "$(ls -A "$state/kept")" ]; then
    fail "$state holds a store already; a restore writes over nothing. Choose a new folder with --data."
  fi
  work=$(mktemp -d "$state/restore-XXXXXX")
  if ! tar -C "$work" -xf "$file" store.dump kept 2>/dev/null; then
    rm -rf "$work"
    fail "$file is not a backup made by ./run back-up: it does not hold the store and the folder of what is kept beside it."
  fi
  start_private_store
  # By the owner of the tables, who gives it its password later; what is restored grants it its rights.
  run_psql "$cluster" owner postgres -c 'create role siteprogress_web'
  if ! PGPASSWORD=$(password_of "$cluster" admin) "$(programs_for "$cluster")/pg_restore" -h "$(socket_folder "$cluster")" -p 5432 \
    -U siteprogress_admin -d siteprogress --exit-on-error --single-transaction "$work/store.dump" >"$state/logs/restore.log" 2>&1; then
    rm -rf "$work"
    fail_naming_a_full_disk "$state/logs/restore.log" "$state" "The backup could not be restored; $state is of no use, choose a new folder for another attempt."
  fi
  cp -a "$work/kept/." "$state/kept/"
  rm -rf "$work"
  migrate_store
  say "Restored into $state. Look at each site with ./run verify SITE --data $state, then start with ./run --data $state."
}
