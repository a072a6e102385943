#!/usr/bin/env bash
# Limits that no compiler knows: no Go file over 600 lines, nothing left open,
# nothing promised that a drawing program cannot promise, and nothing at the
# top level that does not belong there.
set -euo pipefail
cd "$(dirname "$0")/.."
bad=0
say() { echo "$1"; bad=1; }

gofiles() { find cmd ui layout calc assets .ci -name '*.go' 2>/dev/null | sort; }

while read -r lines name; do
  [ "$name" = total ] || [ "$lines" -le 600 ] || say "$name: $lines lines, at most 600"
done < <(gofiles | xargs wc -l)

unformatted=$(gofiles | xargs gofmt -l)
[ -z "$unformatted" ] || say "not formatted (gofmt -w): $unformatted"

open=$(gofiles | grep -v '^\.ci/' | xargs grep -nE '\b(TODO|FIXME|XXX)\b|not implemented' || true)
[ -z "$open" ] || say "left open:
$open"

promises=$(grep -rnwiE 'is safe|guaranteed|certif(y|ies) that|complies with|is compliant' \
  --include='*.go' --include='*.yaml' cmd ui layout calc assets 2>/dev/null |
  grep -vE '_test\.go:|(never|not|no) ' || true)
[ -z "$promises" ] || say "words that promise too much:
$promises"

for entry in $(ls -A); do
  case $entry in
  cmd | ui | layout | calc | assets | testdata | go.mod | go.sum | README.md | DEVELOPERS.md | Makefile) ;;
  .ci | .git | .gitignore | LICENSE | out) ;;
  *) say "$entry: has no place at the top level" ;;
  esac
done
exit $bad
