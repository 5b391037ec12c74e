#!/usr/bin/env bash
# The same survey, photos, signer and date give the same file, whatever is around: folder, locale, threads, time zone.
#
# usage: same_bytes.sh PROGRAM
# Prints what failed, then "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/../.."
source tests/counting.sh
rigdeed=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

export RIGDEED_PASSPHRASE="a test phrase"
"$rigdeed" --quiet signer new "$work/signer.p12" --name "A. Surveyor" >/dev/null
for name in de_DE tr_TR; do
  expect "locale $name can be made" localedef -i "$name" -f UTF-8 "$work/$name.UTF-8"
done
mkdir "$work/elsewhere"
cp -r demo/survey.xml demo/photos "$work/elsewhere"

issue() { rm -f "$2"; "$rigdeed" --quiet issue "$1" -o "$2" --on-behalf --signer "$work/signer.p12" --issued-on 2026-10-05 "${@:3}"; }
same() { expect "$1" cmp "$work/first.pdf" "$2"; }

expect "the first report" issue demo/survey.xml "$work/first.pdf"
issue demo/survey.xml "$work/again.pdf" >/dev/null 2>&1
same "issued again" "$work/again.pdf"
(cd "$work/elsewhere" && issue survey.xml report.pdf >/dev/null 2>&1)
same "another folder and file name" "$work/elsewhere/report.pdf"
issue demo/survey.xml "$work/jobs-1.pdf" --jobs 1 >/dev/null 2>&1
same "one thread" "$work/jobs-1.pdf"
issue demo/survey.xml "$work/jobs-2.pdf" --jobs 2 >/dev/null 2>&1
same "two threads" "$work/jobs-2.pdf"
LC_ALL=C issue demo/survey.xml "$work/c.pdf" >/dev/null 2>&1
same "locale C" "$work/c.pdf"
for name in de_DE tr_TR; do
  there=(env LOCPATH="$work" LC_ALL="$name.UTF-8")
  expect "locale $name is in force" test "$("${there[@]}" locale decimal_point)" = ","
  "${there[@]}" "$rigdeed" --quiet issue demo/survey.xml -o "$work/$name.pdf" --on-behalf --signer "$work/signer.p12" --issued-on 2026-10-05 >/dev/null 2>&1
  same "locale $name" "$work/$name.pdf"
done
for zone in Pacific/Kiritimati America/St_Johns Nowhere/Nothing; do
  TZ=$zone issue demo/survey.xml "$work/zone.pdf" >/dev/null 2>&1
  same "time zone $zone" "$work/zone.pdf"
done
# Other ways to the same numbers: the C library without the processor's wide registers, the JPEG library without any.
GLIBC_TUNABLES=glibc.cpu.hwcaps=-AVX2,-FMA,-AVX,-FMA4 issue demo/survey.xml "$work/plain.pdf" >/dev/null 2>&1
same "another processor's mathematics" "$work/plain.pdf"
JSIMD_FORCENONE=1 issue demo/survey.xml "$work/scalar.pdf" >/dev/null 2>&1
same "photos scaled without vector instructions" "$work/scalar.pdf"
touch -d 2001-01-01 "$work/elsewhere/photos/"*.jpg
issue "$work/elsewhere/survey.xml" "$work/touched.pdf" >/dev/null 2>&1
same "photos with other file times" "$work/touched.pdf"
"$rigdeed" --quiet issue demo/survey.xml -o "$work/other-day.pdf" --on-behalf --signer "$work/signer.p12" --issued-on 2026-10-06 >/dev/null 2>&1
expect "another date of issue gives another file" bash -c '! cmp -s "$@"' - "$work/first.pdf" "$work/other-day.pdf"

conclude
