#!/usr/bin/env bash
# No state that outlives a call: no function-local static, no thread_local, no mutable. No libm in what must give equal bits.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/.."

# A line that starts inside something (indented) with static, but is neither constexpr nor a cast or assertion.
hidden_state='^[[:space:]]+(inline[[:space:]]+)?static[[:space:]]+(const[[:space:]]|[^c]|c[^o]|co[^n]|con[^s]|cons[^t])|^[^/]*\bthread_local\b|^[[:space:]]*static[[:space:]]+(thread_local|std::)'
# libm changes bits between processors; sqrt, abs, floor, ceil and the like are exact and stay.
libm='(\bstd::|(^|[^[:alnum:]_])::)(exp|exp2|expm1|log|log2|log10|log1p|pow|sin|cos|tan|asin|acos|atan|atan2|sinh|cosh|tanh|asinh|acosh|atanh|cbrt|hypot|erf|erfc|tgamma|lgamma|fma|lerp)[fl]?[[:space:]]*\('

without_comments() { sed -E 's://.*$::' "$1"; }

# find_in PATTERN FILE...: prints file:line: text
find_in() {
  local pattern=$1 file found=1
  shift
  for file in "$@"; do
    if without_comments "$file" | grep -nE "$pattern" | sed "s|^|$file:|"; then found=0; fi
  done
  return "$found"
}

if [[ ${1:-} == --self-test ]]; then
  folder=$(mktemp -d)
  trap 'rm -rf "$folder"' EXIT
  rc=0
  expect() { # expect caught|free PATTERN LINE
    printf '%s\n' "$3" >"$folder/a.cpp"
    local got=free
    if find_in "$2" "$folder/a.cpp" >/dev/null; then got=caught; fi
    if [[ $got != "$1" ]]; then
      echo "self-test: '$3' should be $1, was $got" >&2
      rc=1
    fi
  }
  expect caught "$hidden_state" '  static int counter = 0;'
  expect caught "$hidden_state" '  static const std::vector<int> table = make();'
  expect caught "$hidden_state" '  static char buffer[10];'
  expect caught "$hidden_state" '  static std::mutex lock;'
  expect caught "$hidden_state" 'thread_local int depth = 0;'
  expect free "$hidden_state" '  static constexpr int width = 4;'
  expect free "$hidden_state" '  static_assert(width > 0);'
  expect free "$hidden_state" '  // static int counter'
  expect free "$hidden_state" 'static int helper(int a);'
  expect caught "$libm" '  return std::exp(x);'
  expect caught "$libm" '  return std::pow (x, 2.0);'
  expect free "$libm" '  return std::sqrt(x) + std::abs(y);'
  expect caught "$libm" '  return ::log(x);'
  expect free "$libm" '  return numerics::exp(x);'
  exit "$rc"
fi

rc=0
mapfile -t all < <(find src apps -name '*.[ch]pp' | sort)
if find_in "$hidden_state" "${all[@]}" >&2; then
  echo "state that outlives a call: pass it in instead" >&2
  rc=1
fi
mapfile -t engine < <(find src/climate src/simulation src/physics -name '*.[ch]pp' | sort)
if ((${#engine[@]})) && find_in "$libm" "${engine[@]}" >&2; then
  echo "libm where bits must be equal on every processor: use numerics/elementary.hpp" >&2
  rc=1
fi
exit "$rc"
