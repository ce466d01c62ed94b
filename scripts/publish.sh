#!/usr/bin/env bash
# Publishes the web application once for each state of its sources. Sourced by the other scripts; run by itself it prints the
# variable by which tests find what was published: eval "$(scripts/publish.sh)"
set -euo pipefail
. "$(dirname "${BASH_SOURCE[0]}")/common.sh"

export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 DOTNET_GENERATE_ASPNET_CERTIFICATE=false
# Build servers that stay behind keep folders busy and memory taken long after the script has ended.
export MSBUILDDISABLENODEREUSE=1 DOTNET_CLI_USE_MSBUILD_SERVER=0

published_root=$checkout/.siteprogress/published

# One number for everything the published application is made from.
fingerprint_of_sources() {
  (
    cd "$checkout" || exit
    find src Directory.Build.props Directory.Packages.props global.json .editorconfig \
      \( -name node_modules -o -name bin -o -name obj -o -path src/SiteProgress.Web/wwwroot/dist \) -prune -o -type f -print0 |
      LC_ALL=C sort -z | xargs -0 sha256sum | sha256sum | cut -c1-16
  )
}

# Sets published_web to the folder of the published application, building it when the sources have changed.
publish_web() { # LOG_FOLDER
  local log=$1/build.log
  [ -w "$checkout" ] || fail "The checkout $checkout cannot be written by $(id -un), so nothing can be built in it; start as its owner."
  mkdir -p "$1" "$published_root"
  published_web=$published_root/$(fingerprint_of_sources)
  if [ ! -e "$published_web/.complete" ]; then
    say "Building the application; the first time this takes a minute or two."
    one_at_a_time "$checkout/.siteprogress/build.lock" publish_into "$published_web" "$log" ||
      fail_naming_a_full_disk "$log" "$checkout" "The application could not be built."
  fi
  touch "$published_web"
  # Another run may still serve an older build: the newest three stay.
  find "$published_root" -mindepth 1 -maxdepth 1 -type d -printf '%T@ %p\n' | sort -rn | tail -n +4 | cut -d' ' -f2- |
    while IFS= read -r old; do rm -rf "$old"; done
}

publish_into() { # FOLDER LOG_FILE
  [ ! -e "$1/.complete" ] || return 0
  rm -rf "$1"
  dotnet publish "$checkout/src/SiteProgress.Web" -c Release -o "$1" -v minimal -nodeReuse:false -p:UseSharedCompilation=false \
    >"$2" 2>&1 </dev/null && touch "$1/.complete"
}

if [ "${BASH_SOURCE[0]}" = "$0" ]; then
  publish_web "$checkout/.siteprogress/logs"
  printf "export SITEPROGRESS_WEB_PUBLISHED='%s'\n" "$published_web"
fi
