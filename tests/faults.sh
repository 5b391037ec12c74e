#!/usr/bin/env bash
# What goes wrong around the program: full disks, closed pipes, kills, failing system calls, odd clocks.
# After each of them the target is the old file, byte for byte, or a new one that verifies; nothing else is left behind.
#
# usage: tests/faults.sh [PROGRAM]   (RIGDEED_KILLS=500 kills that often; 60 by default)
# Prints what failed, then "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/.."
source tests/counting.sh
program=$(realpath "${1:-build/rigdeed}")
export LC_ALL=C.UTF-8 RIGDEED_PASSPHRASE="a test phrase"

work=$(mktemp -d)
mounted=
trap '[ -z "$mounted" ] || umount "$mounted"; rm -rf "$work"' EXIT
cp "$program" "$work/rigdeed"
python3 tests/outside/small_survey.py demo/photos "$work/in" 8
"$work/rigdeed" --quiet signer new "$work/signer.p12" --name "A. Surveyor" --certificate "$work/signer.pem" >/dev/null
chmod -R a+rX "$work"
chmod 644 "$work/signer.p12"
mkdir "$work/out"
cd "$work" || exit 1
rigdeed=$work/rigdeed survey=$work/in/survey.xml

issue_to() { "$rigdeed" --quiet issue "$survey" --signer "$work/signer.p12" --issued-on 2026-10-05 --force -o "$@"; }
verifies() { [ "$("$rigdeed" verify --signer-cert "$work/signer.pem" "$1" 2>&1 | head -n 1)" = "$1: as issued by A. Surveyor" ]; }
leftovers() { find "$1" -mindepth 1 -not -name report.pdf; }

# An old file to be replaced: a preview, since a sealed report never is.
"$rigdeed" --quiet issue "$survey" --preview --issued-on 2026-10-04 -o "$work/old.pdf" >/dev/null
expect_code 4 "the old file is a preview" "$rigdeed" verify "$work/old.pdf"
issue_to "$work/new.pdf" >/dev/null
expect "the new report verifies" verifies "$work/new.pdf"
expect "they differ" bash -c '! cmp -s "$@"' - "$work/old.pdf" "$work/new.pdf"

# whole FOLDER: report.pdf in it is the old file or the new one, and nothing else is in the folder.
whole() {
  cmp -s "$1/report.pdf" "$work/old.pdf" || cmp -s "$1/report.pdf" "$work/new.pdf" || { echo "report.pdf is neither the old file nor the new one"; return 1; }
  local left
  left=$(leftovers "$1")
  [ -z "$left" ] || { echo "left behind: $left"; return 1; }
}
fresh() { rm -rf "$work/out" && mkdir "$work/out" && cp "$work/old.pdf" "$work/out/report.pdf" && chmod 777 "$work/out"; }
is_old() { cmp "$work/old.pdf" "$1/report.pdf" && whole "$1"; }
says() { grep -qF -- "$1" <<<"$said" || { echo "not said: $1"; echo "$said"; return 1; }; }

# --- nowhere to write -------------------------------------------------------------------------------------------

small_disk="$work/disk"
mkdir "$small_disk"
if mount -t tmpfs -o size=256k rigdeed-test "$small_disk" 2>/dev/null; then
  mounted=$small_disk
  expect_code 2 "full disk, nothing there before" issue_to "$small_disk/report.pdf"
  expect "full disk: path and reason" says "$small_disk/report.pdf: cannot write: No space left on device"
  expect "full disk: nothing is left" test -z "$(ls -A "$small_disk")"
  printf 'old' >"$small_disk/report.pdf"
  expect_code 2 "full disk, an old file" issue_to "$small_disk/report.pdf"
  expect "full disk: the old file is whole, alone" test "$(ls -A "$small_disk") $(cat "$small_disk/report.pdf")" = "report.pdf old"
  umount "$small_disk" && mounted=
else
  echo "  no right to mount a small disk here: a full one is only played by failing writes, below"
fi

fresh
limited() { (ulimit -f 64; issue_to "$work/out/report.pdf"); }
expect_code 2 "ulimit -f" limited
expect "ulimit -f: path and reason" says "$work/out/report.pdf: cannot write: File too large"
expect "ulimit -f: the old file is whole" is_old "$work/out"

fresh
chmod 555 "$work/out"
as_nobody=()
if [ "$(id -u)" -eq 0 ]; then as_nobody=(setpriv --reuid=65534 --regid=65534 --clear-groups); fi
unprivileged() { "${as_nobody[@]}" "$rigdeed" --quiet issue "$survey" --signer "$work/signer.p12" --issued-on 2026-10-05 --force -o "$1"; }
expect_code 2 "read-only folder" unprivileged "$work/out/report.pdf"
expect "read-only folder: path and reason" says "$work/out/report.pdf: cannot write: Permission denied"
expect "read-only folder: the old file is whole" is_old "$work/out"
chmod 755 "$work/out"

expect_code 2 "folder that is not there" issue_to "$work/nowhere/report.pdf"
expect "folder that is not there: path and reason" says "$work/nowhere/report.pdf: cannot write: No such file or directory"
mkdir -p "$work/folder/T-1.pdf"
expect_code 2 "the report's name is a folder's" issue_to "$work/folder"
expect "the report's name is a folder's: path and reason" says "$work/folder/T-1.pdf: is a folder, not a file"
expect "the report's name is a folder's: nothing is left" test "$(ls -A "$work/folder")" = T-1.pdf
expect_code 2 "output is a device" issue_to /dev/null
expect "output is a device: path and reason" says "/dev/null: is not a regular file"

# --- the report in place of its own source ----------------------------------------------------------------------

find "$work/in" "$work/signer.p12" -type f -exec sha256sum {} + >"$work/sources"
ln -s "$work/in/photos" "$work/photos-by-link"
ln -s "$survey" "$work/survey-by-link.xml"
photo=$(find "$work/in/photos" -name '*.jpg' | sort | head -n 1)
for source in "$survey" "$photo" "$work/signer.p12" "$work/photos-by-link/$(basename "$photo")" "$work/in/photos/../survey.xml" "$work/survey-by-link.xml"; do
  expect_code 2 "output is ${source#"$work"/}" issue_to "$source"
  expect "output is ${source#"$work"/}: said so" says "would take the place of"
done
echo "$RIGDEED_PASSPHRASE" >"$work/passphrase"
expect_code 2 "output is the passphrase file" issue_to "$work/passphrase" --passphrase-file "$work/passphrase"
expect "every source is whole" sha256sum --quiet -c "$work/sources"

# --- nobody listens ---------------------------------------------------------------------------------------------

full() { "$@" >/dev/full; }
closed() { "$@" >&-; }
deaf() { "$@" 2>&-; }
gone() { { sleep 0.2; "$@"; echo $? >"$work/code"; } 2>"$work/stderr" | true; cat "$work/stderr"; return "$(cat "$work/code")"; }

says_why() { if [ -n "$reason" ]; then says "standard output: cannot write the result: $reason"; else [ -z "$said" ]; fi; }
for how in full closed gone; do
  case $how in full) reason="No space left on device" ;; closed) reason="Bad file descriptor" ;; gone) reason= ;; esac
  expect_code 2 "stdout $how: check" "$how" "$rigdeed" check "$survey"
  expect "stdout $how: check says why, if anybody listens" says_why
  expect_code 2 "stdout $how: verify" "$how" "$rigdeed" verify "$work/old.pdf"
  expect "stdout $how: verify says why, if anybody listens" says_why
  fresh
  expect_code 2 "stdout $how: issue" "$how" issue_to "$work/out/report.pdf"
  expect "stdout $how: the report is whole" whole "$work/out"
done
fresh
expect_code 0 "stderr closed: issue" deaf issue_to "$work/out/report.pdf"
expect "stderr closed: the new report" cmp "$work/out/report.pdf" "$work/new.pdf"
fresh
nothing_open() { "$rigdeed" issue "$survey" --signer "$work/signer.p12" --issued-on 2026-10-05 --force -o "$work/out/report.pdf" <&- >&- 2>&-; }
expect_code 2 "stdin, stdout and stderr closed: issue" nothing_open
expect "stdin, stdout and stderr closed: the report is whole" whole "$work/out"

# --- killed -----------------------------------------------------------------------------------------------------

fresh
started=$(date +%s%N)
issue_to "$work/out/report.pdf" >/dev/null
takes=$((($(date +%s%N) - started) / 1000))  # µs
fresh
wanted=${RIGDEED_KILLS:-60}
bad= kills=0 until=$((SECONDS + 40 + wanted))
while [ "$kills" -lt "$wanted" ] && [ "$SECONDS" -lt "$until" ]; do
  kills=$((kills + 1))
  cp "$work/old.pdf" "$work/out/report.pdf"
  after=$((RANDOM * 32768 + RANDOM))
  after=$((after % (takes * 12 / 10)))
  { (exec "$rigdeed" --quiet issue "$survey" --signer "$work/signer.p12" --issued-on 2026-10-05 --force -o "$work/out/report.pdf" >/dev/null 2>&1) & victim=$!; sleep "$(printf '%d.%06d' $((after / 1000000)) $((after % 1000000)))"; kill -9 "$victim"; wait "$victim"; } 2>/dev/null
  cmp -s "$work/out/report.pdf" "$work/old.pdf" || verifies "$work/out/report.pdf" || bad="killed after $after µs: report.pdf is damaged"
done
expect "killed $kills times: always the old report or a new one that verifies ${bad:-}" test -z "$bad"
expect "killed: at least 20 times" test "$kills" -ge 20
expect "killed: what is left is hidden .part files" test -z "$(leftovers "$work/out" | grep -v '/\.report\.pdf\.[0-9-]*\.part$')"
cp "$work/old.pdf" "$work/out/report.pdf"
expect "killed: the next run is not hindered" issue_to "$work/out/report.pdf"
expect "killed: the next report is complete" cmp "$work/out/report.pdf" "$work/new.pdf"

# --- failing system calls ---------------------------------------------------------------------------------------

# inject RULE: issues while strace makes a system call fail; the exit code is the program's.
inject() { strace -f -qq -o /dev/null -e trace="${1%%:*}" -e inject="$1" "$rigdeed" --quiet issue "$survey" --signer "$work/signer.p12" --issued-on 2026-10-05 --force -o "$work/out/report.pdf"; }
if ! command -v strace >/dev/null; then
  fail "strace is missing: failing system calls are not tested"
else
  for call in write fsync rename; do
    for error in EIO ENOSPC; do
      for n in 1 2 3 4 5 6; do
        fresh
        code=0
        said=$(inject "$call:error=$error:when=$n" 2>&1) || code=$?
        expect "$call number $n fails with $error: the report is whole" whole "$work/out"
        if [ "$code" -eq 0 ]; then break; fi
        expect "$call number $n fails with $error: exit $code with a reason" test "$code" -eq 2 -a -n "$said"
      done
      expect "$call: more than one call failed, then none was left to fail" test "$n" -ge 2 -a "$code" -eq 0
    done
  done
  fresh
  expect_code 2 "the first write fails" inject write:error=EIO:when=1
  expect "the first write fails: path and reason" says "$work/out/report.pdf: cannot write: Input/output error"
  expect "the first write fails: the old file is whole" is_old "$work/out"
  fresh
  expect_code 2 "the rename fails" inject rename:error=EACCES:when=1
  expect "the rename fails: the old file is whole" is_old "$work/out"
  fresh
  expect_code 0 "writes are interrupted" inject write:error=EINTR:when=1..3
  expect "writes are interrupted: the new report" cmp "$work/out/report.pdf" "$work/new.pdf"
  # Killed at the very calls that put the report in its place.
  for call in write:1 fsync:1 rename:1 fsync:2; do
    fresh
    inject "${call%:*}:signal=KILL:when=${call#*:}" >/dev/null 2>&1
    expect "killed at $call: the old report or the new one" bash -c 'cmp -s "$1" "$2" || cmp -s "$1" "$3"' - "$work/out/report.pdf" "$work/old.pdf" "$work/new.pdf"
  done
fi

# --- too little of everything -----------------------------------------------------------------------------------

fresh
few_files() { (ulimit -n "$1"; issue_to "$work/out/report.pdf"); }
expect_code 0 "ten open files are enough" few_files 10
expect "ten open files: the new report" cmp "$work/out/report.pdf" "$work/new.pdf"
for count in 9 8 7 6 5 4; do
  fresh
  code=0
  said=$(few_files "$count" 2>&1) || code=$?
  case $code in 0 | 2 | 3 | 127) pass ;; *) fail "$count open files: exit $code" "$said" ;; esac
  expect "$count open files: the report is whole" whole "$work/out"
done
little_memory() { (ulimit -v "$1"; issue_to "$work/out/report.pdf"); }
for kib in 40000 60000 80000 100000 120000 160000 200000 300000; do
  fresh
  code=0
  said=$(little_memory "$kib" 2>&1) || code=$?
  case $code in 0 | 2 | 3 | 127) pass ;; *) fail "$kib KiB of memory: exit $code" "$said" ;; esac
  expect "$kib KiB of memory: the report is whole" whole "$work/out"
done

# --- odd clocks, zones, locales ---------------------------------------------------------------------------------

for clock in 0 2147483648 4102444800; do
  fresh
  at_clock() { SOURCE_DATE_EPOCH=$clock "$rigdeed" --quiet issue "$survey" --signer "$work/signer.p12" --with-gaps --force -o "$work/out/report.pdf"; }
  expect_code 0 "clock at $clock" at_clock
  # By a clock so far off the signer's certificate is over: intact, but nobody's.
  if [ "$clock" -eq 0 ]; then
    expect "clock at $clock: it verifies" verifies "$work/out/report.pdf"
  else
    expect_code 5 "clock at $clock: it is intact" "$rigdeed" verify --signer-cert "$work/signer.pem" "$work/out/report.pdf"
    expect "clock at $clock: that the certificate is over is told" grep -q "had expired when it was sealed" <<<"$said"
  fi
done
for clock in -1 1e9 99999999999999999999 253402300800 "12 "; do
  fresh
  expect_code 2 "clock at '$clock'" at_clock
  expect "clock at '$clock': said so" says "SOURCE_DATE_EPOCH"
  expect "clock at '$clock': the old file is whole" is_old "$work/out"
done
for zone in Nowhere/Nothing :/dev/zero "$(printf 'x%.0s' {1..5000})"; do
  fresh
  TZ=$zone expect_code 0 "time zone ${zone:0:20}" issue_to "$work/out/report.pdf"
  expect "time zone ${zone:0:20}: the same report" cmp "$work/out/report.pdf" "$work/new.pdf"
done

# --- others at work ---------------------------------------------------------------------------------------------

fresh
pids=()
for _ in 1 2 3 4 5 6 7 8; do
  issue_to "$work/out/report.pdf" --jobs 1 >/dev/null 2>&1 &
  pids+=($!)
done
for pid in "${pids[@]}"; do
  code=0
  wait "$pid" || code=$?
  case $code in 0 | 2) pass ;; *) fail "eight at once: each comes to its end, or finds the report of another: exit $code" ;; esac
done
expect "eight at once: one whole report" cmp "$work/out/report.pdf" "$work/new.pdf"
expect "eight at once: nothing is left" test -z "$(leftovers "$work/out")"

# A photo is exchanged while the program runs: what is printed and hashed is one of the two, and all of it.
changing=$photo
cp "$changing" "$work/photo-a"
exiftool -q -o "$work/photo-b" -UserComment=other "$work/photo-a"
while :; do
  cp "$work/photo-b" "$work/in/exchanged" && mv "$work/in/exchanged" "$changing"
  cp "$work/photo-a" "$work/in/exchanged" && mv "$work/in/exchanged" "$changing"
done &
exchanger=$!
a=$(sha256sum <"$work/photo-a" | cut -c 1-64) b=$(sha256sum <"$work/photo-b" | cut -c 1-64)
for round in 1 2 3 4 5; do
  fresh
  expect_code 0 "photo exchanged, round $round" issue_to "$work/out/report.pdf"
  pdftotext "$work/out/report.pdf" "$work/text"
  expect "photo exchanged, round $round: one of its two digests" grep -q -x -E "($a|$b)" "$work/text"
done
kill "$exchanger"
wait "$exchanger" 2>/dev/null

conclude
