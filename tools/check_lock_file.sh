#!/usr/bin/env bash
# The lock file pins versions and hashes; where a package is fetched from is each machine's own affair.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
if grep -nE '"resolved"|https?://' package-lock.json | grep -v '"url": "https://\(github.com\|opencollective.com\)' >&2; then
  echo "package-lock.json names a registry" >&2
  exit 1
fi
