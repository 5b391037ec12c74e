#!/usr/bin/env bash
# What the PDF readers and the signature checkers that Debian ships say about a sealed report.
#
# usage: debian_readers.sh REPORT CERTIFICATE
# CERTIFICATE is the signer's, in PEM. Prints what failed, then "N passed, N failed".
set -uo pipefail
source "$(dirname "$0")/../counting.sh"
here=$(dirname "$0")
report=$1 certificate=$2
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

expect "there is a report" test -s "$report"

add_counts_of "the seal" "$here/seal_readers.sh" "$report" "$certificate"
add_counts_of "the documented lines" "$here/by_openssl.sh" "$report" "$certificate"

qpdf --check "$report" >"$work/qpdf" 2>&1
expect "qpdf --check: exit 0" test $? -eq 0
expect "qpdf --check: nothing to say" grep -q "^No syntax or stream encoding errors found" "$work/qpdf"
expect "qpdf --check: no warning" test -z "$(grep -i warning "$work/qpdf")"
pages=$(qpdf --show-npages "$report")
expect "it has pages" test "${pages:-0}" -gt 0

# Debian builds mutool without colour management, which it says once.
mutool draw -q -r 36 -o "$work/page-%d.png" "$report" >"$work/mutool" 2>&1
expect "mutool draw: exit 0" test $? -eq 0
expect "mutool draw: nothing to say" test -z "$(grep -v '^warning: ICC support is not available$' "$work/mutool")"
expect "mutool draw: every page" test "$(find "$work" -name 'page-*.png' | wc -l)" -eq "$pages"

gs -q -dSAFER -dBATCH -dNOPAUSE -dPDFSTOPONERROR -dPDFSTOPONWARNING -r36 -sDEVICE=pnggray -sOutputFile="$work/gs-%d.png" "$report" >"$work/gs" 2>&1
expect "Ghostscript: exit 0" test $? -eq 0
expect "Ghostscript: nothing to say" test ! -s "$work/gs"
expect "Ghostscript: every page" test "$(find "$work" -name 'gs-*.png' | wc -l)" -eq "$pages"

expect_silent "pdftotext: no warning" pdftotext -layout "$report" "$work/text"
expect "pdftotext: text on every page" test "$(tr -cd '\f' <"$work/text" | wc -c)" -eq "$pages"
expect_silent "pdffonts: every font embedded, a subset, with Unicode" awk 'NR > 2 { n++ } NR > 2 && !/ yes +yes +yes +[0-9]+ +0$/ { print } END { exit n == 0 }' <(pdffonts "$report")

expect "the attachments are the survey, the register and the issue record" test \
  "$(pdfdetach -list "$report" 2>&1 | sed -n -E 's/^[0-9]+: //p' | sort | paste -sd ' ')" = "issue.xml photos.xml survey.xml"

conclude
