#!/usr/bin/env bash
# Prints the path of a go command that is new enough for this module. Looks
# in PATH and in the usual places; takes Debian's own only if it is new enough.
# A go of 1.21 or later may also fetch the toolchain that go.mod asks for by
# itself; asking it for its version inside the module shows whether it can.
set -euo pipefail
cd "$(dirname "$0")/.."
want=$(awk '$1=="go"{print $2}' go.mod) # 1.26.0

enough() { # enough 1.26.8
  [ -n "$1" ] && [ "$(printf '%s\n%s\n' "$want" "$1" | sort -V | head -n 1)" = "$want" ]
}

try() {
  [ -x "$1" ] || return 1
  local version
  version=$("$1" env GOVERSION 2>/dev/null) || return 1
  enough "${version#go}" || return 1
  echo "$1"
}

search() {
  local at
  if at=$(command -v go 2>/dev/null) && try "$at"; then return 0; fi
  for at in /usr/local/go/bin/go /usr/lib/go-*/bin/go "${HOME:-/root}"/go/bin/go "${HOME:-/root}"/sdk/go*/bin/go /snap/bin/go; do
    if try "$at"; then return 0; fi
  done
  return 1
}

debian() { # installs Debian's go when it is new enough
  command -v apt-cache >/dev/null 2>&1 || return 1
  local name version
  for name in golang-go "golang-${want%.*}-go"; do
    version=$(apt-cache policy "$name" 2>/dev/null | awk '/Candidate:/{print $2}')
    version=${version#*:}
    version=${version%%[~+-]*}
    [ "$version" != "(none)" ] || continue
    if enough "${version}.0"; then
      .ci/packages.sh "$name" >&2
      return 0
    fi
  done
  return 1
}

if search; then exit 0; fi
if debian && search; then exit 0; fi
cat >&2 <<END
Duskwire needs Go ${want%.*} or newer, and none was found.
Get it from https://go.dev/dl/ : unpack the archive for this machine so that
/usr/local/go/bin/go exists (or put its bin folder into PATH), then run make again.
END
exit 1
