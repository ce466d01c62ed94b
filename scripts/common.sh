# shellcheck shell=bash disable=SC2034
# What every script here shares: where the checkout is, how to speak to a person, how to take turns.
# Sourced, never run.

checkout=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd -P)

# Root by way of a plain su, and ordinary users, do not have the system's programs on their path.
PATH=$PATH:/usr/sbin:/sbin

# Progress goes to standard error: standard output carries only what a caller may want to keep.
say() { printf '%s\n' "$*" >&2; }

# After Ctrl-C whatever was under way fails too; that is no news.
fail() {
  [ -z "${asked_to_stop:-}" ] || exit 130
  printf '%s\n' "$*" >&2
  exit 1
}

is_root() { [ "$(id -u)" = 0 ]; }

# A first failure is often a full disk, and the program that met it seldom says so in words a person can use.
fail_naming_a_full_disk() { # LOG_FILE FOLDER SENTENCE
  [ -z "${asked_to_stop:-}" ] || exit 130
  if grep -qiE 'no space left on device|disk full|check free disk space|53100' "$1" 2>/dev/null || [ "$(free_megabytes "$2")" -lt 16 ]; then
    fail "The disk that holds $2 is full; make room there and start again."
  fi
  tail -n 30 "$1" >&2 2>/dev/null || true
  fail "$3 The full log is $1."
}

keep_log_small() { # LOG_FILE
  [ "$(stat -c %s "$1" 2>/dev/null || echo 0)" -lt 10000000 ] || mv -f "$1" "$1.before"
}

free_megabytes() { df -Pk "$1" | awk 'NR == 2 { print int($4 / 1024) }'; } # FOLDER

require_free_space() { # FOLDER MEGABYTES
  local free
  free=$(free_megabytes "$1")
  if [ "$free" -lt "$2" ]; then
    fail "The disk that holds $1 has $free MB left and at least $2 MB are needed; make room there and start again."
  fi
}

# Two builds in one checkout write the same files, so they take turns.
# The lock's descriptor is closed for the command: a build server that stays behind must not keep the lock.
one_at_a_time() { # LOCK_FILE COMMAND...
  local lock_file=$1
  shift
  mkdir -p "$(dirname "$lock_file")"
  (
    if ! flock --nonblock 9; then
      say "Waiting for another build of this checkout to finish."
      flock 9
    fi
    "$@" 9>&-
  ) 9>>"$lock_file"
}
