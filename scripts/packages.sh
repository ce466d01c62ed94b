# shellcheck shell=bash disable=SC2034
# Finds what the machine lacks and installs it from Debian's packages. Sourced after common.sh.
# What is needed is looked for itself, not its package, so that any system that has it will do.

# Lines of: check | Debian 12 package | what to install on another system.
needs_to_run=(
  "has_library libstdc++.so.6|libstdc++6|the GNU C++ library (libstdc++)"
  "has_library libicuuc.so|libicu72|the ICU library (libicu)"
  "has_library libssl.so.3|libssl3|OpenSSL 3 (libssl)"
  "has_file /usr/share/zoneinfo/Europe/London|tzdata|the time zone data (tzdata)"
  "has_file /etc/ssl/certs/ca-certificates.crt|ca-certificates|the list of certificate authorities (ca-certificates)"
  "has_postgis|postgresql-15-postgis-3|PostgreSQL 15 or newer with PostGIS 3 (server, client programs and extension)"
)
needs_to_test=(
  "has_file /usr/bin/chromium|chromium|Chromium, to be found as /usr/bin/chromium"
  "has_command cs2cs|proj-bin|the command line programs of PROJ 9 (cs2cs)"
  "has_command ogr2ogr|gdal-bin|the command line programs of GDAL 3 (ogr2ogr)"
  "has_command python3|python3|Python 3"
)
# Beyond those, for the peers that ./bench measures against.
needs_to_measure=(
  "has_command gcc|gcc|a C compiler (gcc)"
  "has_file /usr/include/stdio.h|libc6-dev|the C library's headers"
  "has_file /usr/lib/python3/dist-packages/numpy/__init__.py|python3-numpy|Python 3 with NumPy, to be found as /usr/bin/python3"
  "has_file /usr/include/proj.h|libproj-dev|PROJ's headers and library (libproj-dev)"
  "has_file /usr/lib/python3/dist-packages/numpy/__init__.py|python3-numpy|NumPy (python3-numpy)"
)

has_file() { [ -e "$1" ]; }
has_command() { command -v "$1" >/dev/null; }
has_library() { ldconfig -p | grep -F "$1" >/dev/null; }
has_postgis() { [ -n "$(postgres_programs "")" ]; }

# The folder of the newest PostgreSQL (15 or later) that has PostGIS, or of the given major version; empty where there is none.
# SITEPROGRESS_POSTGRES_BIN names another folder.
postgres_programs() { # MAJOR_OR_EMPTY
  local folder share libraries major
  for folder in ${SITEPROGRESS_POSTGRES_BIN:-$(printf '%s\n' /usr/lib/postgresql/*/bin /usr/pgsql-*/bin /usr/bin | sort -rV)}; do
    if [ ! -x "$folder/initdb" ] || [ ! -x "$folder/pg_ctl" ] || [ ! -x "$folder/psql" ]; then continue; fi
    major=$("$folder/initdb" --version | sed -E 's/^[^0-9]*([0-9]+).*/\1/')
    if [ "$major" -lt 15 ] || [ "${1:-$major}" != "$major" ]; then continue; fi
    share=$("$folder/pg_config" --sharedir 2>/dev/null || echo "/usr/share/postgresql/$major")
    libraries=$("$folder/pg_config" --pkglibdir 2>/dev/null || echo "${folder%/bin}/lib")
    if [ ! -e "$share/extension/postgis.control" ] || [ ! -e "$libraries/postgis-3.so" ]; then continue; fi
    printf '%s\n' "$folder"
    return
  done
}

is_debian_12() { (. /etc/os-release && [ "${ID:-}" = debian ] && [ "${VERSION_ID:-}" = 12 ]) 2>/dev/null; }

as_administrator() {
  if is_root; then "$@"; else sudo "$@"; fi
}

# Another program may hold the package lists or the package database; it is waited for, up to ten minutes.
# apt's own option covers the database only, so the lists are retried here.
apt_get() {
  local log attempt
  log=$(mktemp)
  for attempt in $(seq 1 120); do
    if as_administrator env DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 \
      apt-get -q -y -o DPkg::Lock::Timeout=600 "$@" >"$log" 2>&1 </dev/null; then
      rm -f "$log"
      return 0
    fi
    grep -qE 'Could not get lock|Unable to lock|is another process using it' "$log" || break
    [ "$attempt" != 1 ] || say "Another program is installing packages; waiting for it."
    sleep 5
  done
  tail -n 15 "$log" >&2
  if grep -qi 'no space left on device\|not have enough free space' "$log"; then
    rm -f "$log"
    fail "The disk is full, so the packages could not be installed; make room and start again."
  fi
  rm -f "$log"
  return 1
}

# The package of the server makes a cluster of its own and starts it; ours is private, so that one is kept off.
keep_main_cluster_off() {
  local folder=/etc/postgresql-common/createcluster.d
  if [ -e /usr/bin/pg_createcluster ] || grep -qs create_main_cluster "$folder"/*.conf; then return 0; fi
  as_administrator mkdir -p "$folder"
  echo "create_main_cluster = false" | as_administrator tee "$folder/siteprogress.conf" >/dev/null
}

install_missing() { # NEED...
  local need check package words missing_packages=() missing_words=()
  for need in "$@"; do
    IFS='|' read -r check package words <<<"$need"
    # The check is a function with its argument; splitting it is meant.
    # shellcheck disable=SC2086
    if ! $check; then
      missing_packages+=("$package")
      missing_words+=("$words")
    fi
  done
  [ "${#missing_packages[@]}" != 0 ] || return 0

  if ! is_debian_12; then
    fail "This system is not Debian 12, so install these yourself and start again: $(join_words "${missing_words[@]}")."
  fi
  if ! is_root && ! command -v sudo >/dev/null; then
    fail "Packages are missing and there is no sudo; as root, run: apt-get install --no-install-recommends ${missing_packages[*]}"
  fi
  say "Installing from Debian's packages: ${missing_packages[*]}"
  keep_main_cluster_off
  # An installation that was cut short leaves packages half done, and apt refuses to go on until they are finished.
  as_administrator env DEBIAN_FRONTEND=noninteractive dpkg --configure -a >/dev/null 2>&1 </dev/null || true
  apt_get update || fail "The lists of Debian's packages could not be fetched; check the network and start again."
  apt_get install --no-install-recommends "${missing_packages[@]}" ||
    fail "These packages could not be installed: ${missing_packages[*]}. What apt-get said stands above."
  hash -r
  for need in "$@"; do
    IFS='|' read -r check package words <<<"$need"
    # shellcheck disable=SC2086
    $check || fail "The package $package is installed, but it did not bring $words; set that right and start again."
  done
}

join_words() {
  local text=$1
  shift
  while [ $# != 0 ]; do
    text="$text; $1"
    shift
  done
  printf '%s' "$text"
}

# The two things that do not come from Debian.
require_tools() {
  command -v dotnet >/dev/null ||
    fail "The .NET SDK 10 is missing: install it, see that the command dotnet is found, and start again."
  dotnet --list-sdks 2>/dev/null | grep -q '^10\.' ||
    fail "The .NET SDK 10 is missing (dotnet is there, but lists no SDK 10): install it and start again."
  if ! command -v node >/dev/null || ! command -v npm >/dev/null; then
    fail "Node 20 or newer with npm is missing: install it, see that node and npm are found, and start again."
  fi
  local node_major
  node_major=$(node --version | sed -E 's/^v([0-9]+).*/\1/')
  [ "$node_major" -ge 20 ] || fail "Node is version $node_major, and 20 or newer is needed: install that and start again."
}
