#!/usr/bin/env bash
# The lock file pins versions and hashes; where a package is fetched from is each machine's own affair.
# (Lines "url" say whom to pay, not where to fetch.)
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
if grep -nE '"resolved"|https?://' package-lock.json | grep -v '^[0-9]*: *"url": ' >&2; then
  echo "package-lock.json names a registry" >&2
  exit 1
fi
