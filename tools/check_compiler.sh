#!/usr/bin/env bash
# A second compiler's view of src: `libcxx` compiles with clang 14 and its own library, `tidy` runs clang-tidy.
# A file whose own text and headers have not changed since it last came through is not looked at again.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."
kind=$1
out=build/check/$kind
mkdir -p "$out/headers"
# Sign conversions as in g++, whose -Wconversion leaves them out: indices here are ints.
flags=(-std=c++20 -Isrc -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-sign-conversion -Werror)

# What must also compile for a page in a browser, where clang and libc++ are all there is; store and above need not.
below_store=(base numerics stats geometry physics catalogue design logbook climate results plan
  simulation checks planting money buildorder workshop trials upkeep)
folders=("${below_store[@]}")
[[ $kind == libcxx ]] || folders+=(store report studies)

sources=()
for folder in "${folders[@]}"; do
  [[ -d src/$folder ]] || continue
  mapfile -t -O "${#sources[@]}" sources < <(find "src/$folder" -name '*.cpp' | sort)
  # One file that includes every header of the folder, so that a header used by nobody is looked at too.
  headers=$(find "src/$folder" -name '*.hpp' | sort | sed -E 's:^src/(.*)$:#include "\1":')
  if [[ -n $headers ]]; then
    all=$out/headers/$folder.cpp
    [[ -f $all && $(<"$all") == "$headers" ]] || printf '%s\n' "$headers" >"$all"
    sources+=("$all")
  fi
done
if [[ $kind == tidy ]]; then
  mapfile -t -O "${#sources[@]}" sources < <(find apps -name '*.cpp' | sort)
fi

# stdout and stderr: what is wrong with one file.
check_one() {
  local file=$1 stamp key
  stamp=$out/${file//\//_}.stamp
  # -MM lists the headers of this tree; a missing one makes the compiler below say so.
  key=$({ printf '%s\n' "${flags[@]}"; cat .clang-tidy tools/check_compiler.sh; clang++-14 -std=c++20 -Isrc -Iapps -Iapps/cli -MM "$file" 2>/dev/null |
    tr -d '\\\n' | cut -d: -f2- | xargs cat; } | sha256sum)
  [[ ! -f $stamp || $(<"$stamp") != "$key" ]] || return 0
  if [[ $kind == libcxx ]]; then
    clang++-14 "${flags[@]}" -stdlib=libc++ -fsyntax-only "$file" || return 1
  else
    clang-tidy --quiet --warnings-as-errors='*' "$file" -- -std=c++20 -Isrc -Iapps -Iapps/cli -Wno-everything 2>"$stamp.log" || {
      cat "$stamp.log" >&2
      return 1
    }
  fi
  printf '%s' "$key" >"$stamp"
}
# A tool that does not see a planted fault (a configuration it cannot read, say) must not count as content.
planted=$out/planted.cpp
if [[ $kind == libcxx ]]; then
  printf '#include <source_location>\n' >"$planted"
else
  printf 'namespace houseleek {\nint n_calls = 0;\nstruct wrong_name {\n  int a = 0;\n};\n}  // namespace houseleek\n' >"$planted"
fi
if check_one "$planted" >"$planted.log" 2>&1 || { [[ $kind == tidy ]] &&
  ! { grep -q "invalid case style for struct 'wrong_name'" "$planted.log" && grep -q "'n_calls' is non-const" "$planted.log"; }; }; then
  cat "$planted.log" >&2
  echo "check_compiler: $kind does not see a planted fault" >&2
  exit 1
fi

export -f check_one
export kind out
export flags_text="${flags[*]}"
((${#sources[@]})) || exit 0
printf '%s\0' "${sources[@]}" | xargs -0 -P 2 -I{} bash -c 'read -ra flags <<<"$flags_text"; check_one "$1"' _ {}
