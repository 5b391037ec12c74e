#!/usr/bin/env bash
# The package on a bare Debian 12: installed by apt in a tree that debootstrap makes, used there, removed, and nothing is
# left of it. Needs root and the network.
#
# usage: bare.sh PACKAGE.deb
set -uo pipefail
deb=$(readlink -f "$1")
passed=0 failed=0
expect() {
  local what=$1 said
  shift
  if said=$("$@" 2>&1 </dev/null); then passed=$((passed + 1)); else failed=$((failed + 1)); printf 'FAILED: %s\n%s\n' "$what" "$(tail -n 15 <<<"$said")"; fi
}
tree=$(mktemp -d)
cleanup() { for one in proc dev/pts dev; do mountpoint -q "$tree/$one" && umount "$tree/$one"; done; rm -rf --one-file-system "$tree"; }
trap cleanup EXIT
within() { chroot "$tree" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin HOME=/root LC_ALL=C.UTF-8 DEBIAN_FRONTEND=noninteractive RIGDEED_PASSPHRASE="a test phrase" "$@"; }
tries() { for _ in 1 2 3; do "$@" && return 0; sleep 5; done; return 1; }

expect "a bare Debian 12" tries debootstrap --variant=minbase bookworm "$tree"
cp /etc/resolv.conf "$tree/etc/resolv.conf"
cp "$deb" "$tree/root/"
mount --bind /dev "$tree/dev" && mount -t proc proc "$tree/proc"
expect "packages are listed" tries within apt-get -q update
expect "man and bash's completions, which the bare tree has not" tries within apt-get -q install -y --no-install-recommends man-db bash-completion
within find / -xdev -not -path '/proc/*' -not -path '/dev/*' | LC_ALL=C sort >"$tree.before"
# What a package brings in stays until autoremove: its dependencies come first, so that what is left is its own.
depends=$(dpkg-deb -f "$deb" Depends | sed 's/([^)]*)//g; s/,/ /g')
# shellcheck disable=SC2086
expect "its dependencies are Debian's" tries within apt-get -q install -y --no-install-recommends $depends
within find / -xdev -not -path '/proc/*' -not -path '/dev/*' -not -path '/var/*' -not -path '/root/*' | LC_ALL=C sort >"$tree.before"
expect "apt installs it" within apt-get -q install -y "/root/$(basename "$deb")"
expect "it runs" within rigdeed --version
expect "it starts a survey" within rigdeed start cutter -o /root/survey
sample=/usr/share/doc/rigdeed/examples/sample
expect "the sample is complete" within rigdeed check "$sample/survey.xml"
expect "a signer is made" within rigdeed signer new /root/s.p12 --name "Ada Sorrel" --certificate /root/s.pem
expect "the sample is issued" within rigdeed issue "$sample/survey.xml" -o /root/sample.pdf --signer /root/s.p12
expect "and verified" within rigdeed verify /root/sample.pdf --signer-cert /root/s.pem
for page in rigdeed rigdeed-issue rigdeed-verify; do expect "man $page" within sh -c "man $page | grep -q SYNOPSIS"; done
expect "man 5 rigdeed-survey" within sh -c "man 5 rigdeed-survey | grep -q 'rig-survey'"
expect "the check page is there" within test -s /usr/share/rigdeed/check.html
# shellcheck disable=SC2016
expect "bash completes its commands" within bash -c 'source /usr/share/bash-completion/bash_completion; _load_comp rigdeed || __load_completion rigdeed; COMP_WORDS=(rigdeed veri); COMP_CWORD=1; _rigdeed; [ "${COMPREPLY[*]}" = verify ]'
within rm -rf /root/survey /root/s.p12 /root/s.pem /root/sample.pdf
expect "apt removes it" within apt-get -q remove -y rigdeed
within find / -xdev -not -path '/proc/*' -not -path '/dev/*' -not -path '/var/*' -not -path '/root/*' | LC_ALL=C sort >"$tree.after"
expect "and leaves nothing" diff "$tree.before" "$tree.after"
expect "nor in the lists of dpkg" within sh -c "! dpkg-query -W rigdeed"
rm -f "$tree.before" "$tree.after"
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
