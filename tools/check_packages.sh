#!/usr/bin/env bash
# The set-up without rights: every package has a purpose and a sign; what is here without dpkg is found; what is missing is
# listed with its purpose, nothing is installed, and the exit code is 3. Works in a scratch folder, as a user without rights.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
source tools/packages.sh

fail() {
  echo "check_packages: $*" >&2
  exit 1
}

for name in "${packages_build[@]}" "${packages_test[@]}" "${packages_check[@]}" "${packages_bench[@]}" \
  "${packages_browser[@]}" "${packages_node[@]}"; do
  [[ ${package_purpose[$name]:-} ]] || fail "$name has no purpose in tools/packages.sh"
  [[ ${package_sign[$name]:-} ]] || fail "$name has no sign in tools/packages.sh"
done

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT
chmod 755 "$scratch"
# Programs that are no use: a dpkg that knows no package, a sudo that refuses, an apt-get that must not be called.
mkdir "$scratch/bin"
printf '#!/bin/sh\nexit 1\n' >"$scratch/bin/dpkg-query"
printf '#!/bin/sh\nexit 1\n' >"$scratch/bin/sudo"
printf '#!/bin/sh\necho "apt-get was called" >&2\nexit 1\n' >"$scratch/bin/apt-get"
chmod 755 "$scratch"/bin/*
cp tools/packages.sh "$scratch/packages.sh"
chmod 644 "$scratch/packages.sh"

# Runs a line of bash as a user without rights; output in $out, exit code in $rc.
run_without_rights() {
  local -a as_nobody=()
  ((EUID != 0)) || as_nobody=(setpriv --reuid=65534 --regid=65534 --clear-groups --)
  rc=0
  out=$("${as_nobody[@]}" env PATH="$1" HOME=/nonexistent bash -c "set -euo pipefail; cd '$scratch'; source packages.sh; $2" \
    2>&1 </dev/null) || rc=$?
}
blind_path="$scratch/bin:/usr/bin:/bin"

# Here without dpkg: found by their signs (this script runs where the build and test sets are complete).
run_without_rights "$blind_path" 'ensure_packages "${packages_build[@]}" "${packages_test[@]}"'
((rc == 0)) || fail "what is here was not found without dpkg: $out"

# Missing: each with its purpose, the line to run, and nothing done.
missing='package_sign[libfmt-dev]="header no/such.h"; package_sign[ninja-build]="program no-such-ninja"
package_sign[tzdata]="file /no/such/file"; package_sign[python3-scipy]="module no_such_module"
ensure_packages g++ libfmt-dev ninja-build tzdata python3-scipy'
run_without_rights "$blind_path" "$missing"
((rc == 3)) || fail "exit code $rc instead of 3: $out"
for name in libfmt-dev ninja-build tzdata python3-scipy; do
  grep -qF -- "    $name " <<<"$out" || fail "$name is not listed: $out"
  grep -qF -- "${package_purpose[$name]}" <<<"$out" || fail "$name is listed without its purpose: $out"
done
grep -qE '^    g\+\+ ' <<<"$out" && fail "g++ is here and was listed: $out"
grep -q 'apt-get update && apt-get install -y --no-install-recommends libfmt-dev ninja-build python3-scipy tzdata' \
  <<<"$out" || fail "the line to run is missing: $out"
grep -q 'apt-get was called' <<<"$out" && fail "apt-get was called without rights"
[[ ! -e $scratch/build ]] || fail "something was written"

# No Debian at all: the list, and no apt-get line.
mkdir "$scratch/few"
for tool in bash sed sort env python3 g++; do
  path=$(PATH=/usr/bin:/bin command -v "$tool") && ln -s "$path" "$scratch/few/$tool"
done
run_without_rights "$scratch/few" "$missing"
((rc == 3)) || fail "exit code $rc instead of 3 without apt-get: $out"
grep -q 'there is no apt-get' <<<"$out" || fail "it does not say that there is no apt-get: $out"
grep -qF "${package_purpose[libfmt-dev]}" <<<"$out" || fail "no purposes without apt-get: $out"

# The check itself can fail: a set with a package that nothing explains.
if (packages_build+=(no-such-package) && [[ ${package_sign[no-such-package]:-} ]]); then
  fail "an unknown package has a sign"
fi
echo "check_packages: set-up without rights, without dpkg and without Debian behaves"
