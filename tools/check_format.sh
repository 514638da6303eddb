#!/usr/bin/env bash
# Every C++ file is as clang-format writes it; with --fix, makes it so.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
mapfile -t files < <(git ls-files --cached --others --exclude-standard -- '*.cpp' '*.hpp')
# The index may name a file that is just being moved.
existing=()
for file in "${files[@]}"; do [[ ! -f $file ]] || existing+=("$file"); done
if ((${#existing[@]} == 0)); then
  echo "check_format: git lists no C++ file here" >&2
  exit 1
fi
if [[ ${1:-} == --fix ]]; then
  clang-format -i "${existing[@]}"
else
  clang-format --dry-run --Werror "${existing[@]}"
fi
