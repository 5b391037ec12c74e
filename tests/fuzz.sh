#!/usr/bin/env bash
# Each fuzz target over its seeds and a fixed set of variants of them, without a fuzzer.
# tests/sanitizers.sh fuzzes them with libFuzzer.
#
# usage: tests/fuzz.sh [VARIANTS [BUILD]]
# Prints what failed, then "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/.."
source tests/counting.sh
variants=${1:-2000} build=${2:-build}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
expect "the seeds are made" python3 tests/fuzz/seeds.py "$build/rigdeed" . "$work"
for target in survey photo structure cms timestamp verify record register templates heif marks works store before; do
  expect "$target: no input brings it down" timeout 300 "$build/tests/replay_$target" "$variants" "$work/$target"/*
done
conclude
