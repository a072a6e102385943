#!/usr/bin/env bash
# Installs the Debian packages named on the command line, those only that are
# missing. "a|b" is met by either and installs a. Asks dpkg first, so that a
# second call takes a few milliseconds and needs neither network nor root.
set -euo pipefail

installed() {
  [ "$(dpkg-query -W -f='${db:Status-Abbrev}' "$1" 2>/dev/null | cut -c1-2)" = ii ]
}

if ! command -v dpkg-query >/dev/null 2>&1; then
  echo "packages: this is no Debian or Ubuntu; please install by hand what matches: $*" >&2
  exit 0
fi

missing=()
for want in "$@"; do
  met=
  IFS='|' read -ra names <<<"$want"
  for name in "${names[@]}"; do
    if installed "$name"; then met=yes; fi
  done
  [ -n "$met" ] || missing+=("${names[0]}")
done
[ ${#missing[@]} -gt 0 ] || exit 0

root=()
if [ "$(id -u)" -ne 0 ]; then
  if ! command -v sudo >/dev/null 2>&1; then
    echo "packages: not root and no sudo; please have these installed: ${missing[*]}" >&2
    exit 1
  fi
  echo "packages: these are missing and need sudo to install: ${missing[*]}"
  root=(sudo)
else
  echo "packages: installing ${missing[*]}"
fi
"${root[@]}" apt-get -q update
"${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q install -y --no-install-recommends "${missing[@]}"
