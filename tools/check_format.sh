#!/usr/bin/env bash
# Every C++ file is as clang-format writes it.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
mapfile -t files < <(git ls-files --cached --others --exclude-standard -- '*.cpp' '*.hpp')
# The index may name a file that is just being moved.
existing=()
for file in "${files[@]}"; do [[ ! -f $file ]] || existing+=("$file"); done
clang-format --dry-run --Werror "${existing[@]}"
