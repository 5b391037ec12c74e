#!/usr/bin/env bash
# Two builds of one commit, by other compilers or with other optimisation, make the same bytes of every paper and page.
# Photos are scaled by each of its own in a small survey; the large one takes the copies that the first build kept.
#
# usage: same_compilers.sh PROGRAM OTHER_PROGRAM
# Prints what failed, then "N passed, N failed".
set -uo pipefail
cd "$(dirname "$0")/.."
source tests/counting.sh
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
programs=("$(realpath "$1")" "$(realpath "$2")")
export LC_ALL=C.UTF-8 RIGDEED_PASSPHRASE="a test phrase" SOURCE_DATE_EPOCH=1794000000

says() { "$1" --version; }
expect "they are two builds" bash -c '! cmp -s "$@"' - "${programs[@]}"
expect "of one version" test "$(says "${programs[0]}")" = "$(says "${programs[1]}")"

# What is read: the demo, two plans begun, works that answer a report.
rigdeed=${programs[0]}
cp -r demo/survey.xml demo/photos "$work"
"$rigdeed" --quiet start cutter -o "$work/cutter" >/dev/null
"$rigdeed" --quiet start ketch -o "$work/ketch" >/dev/null
"$rigdeed" --quiet signer new "$work/signer.p12" --name "Ilse Varnhold" >/dev/null
XDG_CACHE_HOME=$work/cache "$rigdeed" --quiet issue "$work/survey.xml" -o "$work/report.pdf" --signer "$work/signer.p12" >/dev/null
"$rigdeed" --quiet start --works "$work/report.pdf" -o "$work/works" >/dev/null 2>&1
perl -0pi -e 's/done="\?".*?<\/item>/done="no" on="2026-11-01">No time yet.<\/item>/gs; s/number="\?">/number="W-1">/; s/<rigger name="\?"[^>]*>/<rigger name="Ilse Varnhold"\/>/' "$work/works/works.xml"

# make NUMBER: everything, by that program.
make() {
  local rigdeed=${programs[$1]} to=$work/$1
  mkdir "$to"
  {
    XDG_CACHE_HOME=$work/cache "$rigdeed" --quiet issue "$work/survey.xml" --preview -o "$to/demo.pdf"
    XDG_CACHE_HOME=$work/none-$1 "$rigdeed" --quiet issue fixtures/complete/survey.xml --preview --language es -o "$to/photos.pdf"
    "$rigdeed" --quiet issue "$work/cutter/survey.xml" --preview --with-gaps --language de -o "$to/cutter.pdf"
    "$rigdeed" --quiet issue "$work/ketch/survey.xml" --preview --with-gaps --language fr --paper letter -o "$to/ketch.pdf"
    "$rigdeed" --quiet issue "$work/works/works.xml" --preview -o "$to/works.pdf"
    "$rigdeed" --quiet climb "$work/survey.xml" -o "$to/climb.pdf"
    "$rigdeed" --quiet verify --page -o "$to/check.html"
    XDG_CACHE_HOME=$work/none-$1 "$rigdeed" --quiet mark fixtures/complete/survey.xml -o "$to/marking.html"
    "$rigdeed" check "$work/survey.xml" --json >"$to/check.json"
  } >"$work/said-$1" 2>&1
}
make 0 & make 1 & wait
build_of() { pdfdetach -savefile issue.xml -o "$work/issue.xml" "$1" && grep -o ' build="[0-9a-f]*"' "$work/issue.xml"; }
expect "they are of one commit" test "$(build_of "$work/0/photos.pdf")" = "$(build_of "$work/1/photos.pdf")"
for paper in demo.pdf photos.pdf cutter.pdf ketch.pdf works.pdf climb.pdf check.html marking.html check.json; do
  expect "$paper is made" test -s "$work/0/$paper"
  expect "$paper is the same bytes" cmp "$work/0/$paper" "$work/1/$paper"
done
[ "$failed" -eq 0 ] || sed 's/^/    /' "$work"/said-* | head -n 20
conclude
