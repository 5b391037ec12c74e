#!/usr/bin/env bash
# The EU's Digital Signature Service about sealed reports: of which level, whole, and alone; and about one that was altered.
#
# usage: dss_says.sh CLASS_PATH LEVEL REPORT.pdf…
# LEVEL is PAdES-BASELINE-B or -T. Prints "N passed, N failed".
set -uo pipefail
source "$(dirname "$0")/../counting.sh"
classes=$1 level=$2
shift 2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
sed 's/OutputIntents/OutputIntentz/' "$1" >"$work/altered.pdf"
java -cp "$classes" "$(dirname "$0")/dss/Judge.java" "$@" "$work/altered.pdf" >"$work/said" 2>"$work/errors"
for report in "$@"; do
  expect "DSS: $report is $level, intact and unmodified, with one signature" grep -qxF "$report $level intact 1 unmodified" "$work/said"
done
expect "DSS: an altered report is broken" grep -qF "$work/altered.pdf $level broken" "$work/said"
conclude
