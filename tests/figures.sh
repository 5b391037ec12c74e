#!/usr/bin/env bash
# Writes the measured blocks of docs/reliability.md out of what ran, each with the version and the day.
#
# usage: tests/figures.sh tests [LOG]       what `.ci/run | tee out/ci.log` said; out/ci.log if not named
#        tests/figures.sh coverage          runs tests/coverage.sh
#        tests/figures.sh speed [RUNS]      runs tests/bench.sh
#        tests/figures.sh fuzzing FOLDER…   folders of libFuzzer's logs, fuzz_NAME.log or N-NAME.log each, with -print_final_stats=1
#        tests/figures.sh                   the first three
# Each may be given what it would run as a file: RIGDEED_FIGURES_FROM=FILE. What a block says is never typed by hand:
# tests/figures.py refuses a block of more than one release before.
set -euo pipefail
cd "$(dirname "$0")/.."
write() { python3 tests/write_figures.py "$@"; }
from() { if [ -n "${RIGDEED_FIGURES_FROM:-}" ]; then cat "$RIGDEED_FIGURES_FROM"; else "$@"; fi; }
case ${1:-all} in
  tests) write tests <"${2:-${RIGDEED_FIGURES_FROM:-out/ci.log}}" ;;
  coverage) from tests/coverage.sh | write coverage ;;
  speed) from tests/bench.sh "${@:2}" | write speed ;;
  fuzzing) write fuzzing "${@:2}" </dev/null ;;
  all) "$0" tests && "$0" coverage && "$0" speed ;;
  *) sed -n '2,/^set/s/^# \{0,1\}//p' "$0" >&2; exit 1 ;;
esac
