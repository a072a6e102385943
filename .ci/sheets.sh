#!/usr/bin/env bash
# Writes what can be seen of a scheme without a screen: its findings, readings
# and lengths as text and its plan as a picture.
# usage: sheets.sh DUSKSHEET SCHEME FOLDER
set -euo pipefail
sheet=$1 scheme=$2 to=$3
mkdir -p "$to"
for what in findings readings lengths; do
  # 1 says that there are Stop findings: still a sheet worth having.
  "$sheet" "$what" "$scheme" >"$to/$what.txt" || [ $? -eq 1 ]
done
"$sheet" picture "$scheme" --out "$to/plan.png" >/dev/null || [ $? -eq 1 ]
cat "$to/findings.txt"
echo
echo "Written: $to/findings.txt, $to/readings.txt, $to/lengths.txt, $to/plan.png"
