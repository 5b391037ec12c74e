#!/usr/bin/env bash
# Installs the Debian 12 packages that building or testing needs. What is there already is left alone.
#
# usage: tests/dependencies.sh build|tests|outside|sanitizers
set -euo pipefail

build=(g++ cmake ninja-build pkg-config libhpdf-dev libpugixml-dev libexiv2-dev libcli11-dev doctest-dev
  libjpeg62-turbo-dev libpng-dev liblcms2-dev libheif-dev libqrencode-dev libzxing-dev libssl-dev zlib1g-dev fonts-lato fonts-dejavu-core icc-profiles-free)
tests=(python3 openssl xxd libxml2-utils qpdf poppler-utils mupdf-tools ghostscript libimage-exiftool-perl imagemagick libheif-examples qrencode zbar-tools
  chromium chromium-driver python3-selenium strace util-linux locales procps clang-format-14 clang-tidy-14)
command -v node >/dev/null || tests+=(nodejs)
outside=(firefox-esr lintian zsh fish debootstrap man-db)
command -v java >/dev/null || outside+=(default-jre-headless)
command -v mvn >/dev/null || outside+=(maven)
command -v npm >/dev/null || outside+=(npm)
command -v cargo >/dev/null || outside+=(cargo)
python3 -c 'import ensurepip, venv' 2>/dev/null || outside+=(python3-venv)

sanitizers=(clang-16 libclang-rt-16-dev)

case "${1:-}" in
  build) wanted=("${build[@]}") ;;
  tests) wanted=("${build[@]}" "${tests[@]}") ;;
  outside) wanted=("${build[@]}" "${tests[@]}" "${outside[@]}") ;;
  sanitizers) wanted=("${build[@]}" "${tests[@]}" "${sanitizers[@]}") ;;
  *) echo "usage: tests/dependencies.sh build|tests|outside|sanitizers" >&2; exit 2 ;;
esac

missing=()
for package in "${wanted[@]}"; do
  status=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null) || status=absent
  [ "$status" = installed ] || missing+=("$package")
done
if [ ${#missing[@]} -eq 0 ]; then exit 0; fi

as_root=()
[ "$(id -u)" -eq 0 ] || as_root=(sudo)
fetch() { "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -o Acquire::Retries=3 -o DPkg::Lock::Timeout=300 "$@" </dev/null; }

echo "installing ${missing[*]}"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
for attempt in 1 2 3; do
  if { fetch update && fetch install -y --no-install-recommends "${missing[@]}"; } >"$log" 2>&1; then exit 0; fi
  sleep $((attempt * 5))
done
tail -n 30 "$log" >&2
echo "could not install: ${missing[*]}" >&2
exit 1
