#!/usr/bin/env bash
# The EU's Digital Signature Service about sealed reports: of which level, whole, and alone; and about each once altered.
#
# usage: dss_says.sh CLASS_PATH LEVEL CERTIFICATES REPORT.pdf…
# LEVEL is PAdES-BASELINE-B or -T, CERTIFICATES how many the report has from the signer's upwards. Prints "N passed, N
# failed".
set -uo pipefail
source "$(dirname "$0")/../counting.sh"
classes=$1 level=$2 certificates=$3
shift 3
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
altered=()
for report in "$@"; do
  altered+=("$work/$(basename "$report")")
  sed 's/OutputIntents/OutputIntentz/' "$report" >"${altered[-1]}"
done
timestamps=0
if [ "$level" = PAdES-BASELINE-T ]; then timestamps=1; fi
java -cp "$classes" "$(dirname "$0")/dss/Judge.java" "$@" "${altered[@]}" >"$work/said" 2>"$work/errors"
for report in "$@"; do
  line="$report $level intact 1 unmodified $certificates $timestamps"
  if grep -qxF "$line" "$work/said"; then pass; else fail "DSS: $line" "$(grep -F "$report " "$work/said"; tail -n 3 "$work/errors")"; fi
done
for report in "${altered[@]}"; do
  expect "DSS: $report, altered, is broken" grep -qF "$report $level broken" "$work/said"
done
conclude
