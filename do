#!/usr/bin/env bash
# Everything one does with this tree, one word each; every word sets up what it needs. See ./do --help.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
# The packages are Debian's: their own Python must win over others in PATH. Where there is none, any other must do.
python=/usr/bin/python3
[[ -x $python ]] || python=$(command -v python3 || echo "$python")
source tools/packages.sh

example=examples/01-terrace-house/roof.toml
n_jobs=$(nproc)

usage() {
  cat <<'END'
usage: ./do WORD

  build       the program, at build/release/houseleek
  logbook     build, then two invented years of logbook for the terrace house: build/terrace-house.houseleek
  demo        build, then the answer for the terrace house, and a report of it with charts
  test        all tests but the long ones; writes docs/validation.md
  check       format, directions of includes, doc comments, names, second compiler, quick tests
  bench       timings against their bars
  test-long   the tests that take minutes
  check-full  check of every file anew, quick tests under sanitizers, then test
  onefile     the program as one page (not there yet)
  --help      this list

Each word installs the Debian packages that are missing (as root, or with sudo; otherwise it says what to run).
Exit codes: 0 done, 1 something failed, 2 usage or not there yet, 3 a package or tool cannot be had.
END
}

# Node's packages by name from package.json, at the versions of package-lock.json.
install_node_packages() {
  [[ ! -f node_modules/.package-lock.json || package-lock.json -nt node_modules/.package-lock.json ]] || return 0
  npm ci --no-audit --no-fund --loglevel=error >&2 || return 1
  # npm keeps the old time stamp where nothing changed: without the touch every run would install again.
  touch node_modules/.package-lock.json
}

# configure_and_build PRESET [TARGET...]
configure_and_build() {
  local preset=$1
  shift
  # Packages that have come since let the page be built.
  if [[ ! -f build/$preset/build.ninja || node_modules/.package-lock.json -nt build/$preset/build.ninja ]]; then
    mkdir -p "build/$preset"
    if ! cmake --preset "$preset" >"build/$preset/configure.log" 2>&1; then
      cat "build/$preset/configure.log" >&2
      return 1
    fi
  fi
  cmake --build "build/$preset" --parallel "$n_jobs" ${1:+--target "$@"}
}

do_build() {
  ensure_packages "${packages_build[@]}"
  # The page is built where Node is there; the program is whole without it but for `open`.
  if command -v node >/dev/null && command -v npm >/dev/null; then
    install_node_packages || echo "do: no packages of Node, so the program is built without its page" >&2
  fi
  configure_and_build release >&2
  if [[ ! -x build/release/houseleek ]]; then
    echo "do: the build made no build/release/houseleek" >&2
    return 1
  fi
}

do_demo() {
  do_build
  local page=build/terrace-house.html
  build/release/houseleek study "$example" --report "$page" --years 1
  cat <<END

The program:     build/release/houseleek --help
The description: $example (a text file; change a value and run the line below again)
                 build/release/houseleek study $example
The report:      $PWD/$page
                 (one file; open it in any browser, or print it)
This week:       build/release/houseleek week $example
In a browser:    build/release/houseleek open my-roof.houseleek   (begins your own; needs Node when it is built)
END
}

do_logbook() {
  do_build
  configure_and_build release houseleek_invent_logbook >&2
  local folder=build/logbook project=build/terrace-house.houseleek program=build/release/houseleek
  build/release/houseleek_invent_logbook . "$folder"
  rm -f "$project"
  "$program" import "$example" --to "$project"
  "$program" import "$folder/events.csv" --to "$project" --events
  "$program" import "$folder/outdoor.csv" --to "$project" --logger outdoor --clock standard
  "$program" import "$folder/roof.csv" --to "$project" --logger roof --clock standard
  cat <<END

An invented project: $project
                     $program log $project --since 2026-02-01
                     $program upkeep $project --on 2026-02-28 --report build/upkeep.html
                     $program trial judge $project --trial "which is cooler" --report build/verdict.html
END
}

# Runs ctest of one build and adds its counts to n_passed, n_failed, n_skipped.
n_passed=0
n_failed=0
n_skipped=0
run_ctest() {
  local folder=$1
  shift
  local report=$PWD/$folder/ctest.xml rc=0
  rm -f "$report"
  ctest --test-dir "$folder" --parallel 2 --output-on-failure --no-tests=error --output-junit "$report" "$@" \
    >"$folder/ctest.log" 2>&1 || rc=$?
  if [[ ! -s $report ]]; then
    cat "$folder/ctest.log" >&2
    echo "do: ctest left no report" >&2
    n_failed=$((n_failed + 1))
    return
  fi
  # The counts stand in the first element: <testsuite name="..." tests="11" failures="0" disabled="0" skipped="1" ...>
  local head tests failures disabled skipped
  head=$(head -c 2000 "$report" | tr -s '\n\t' '  ')
  if [[ ! $head =~ \ tests=\"([0-9]+)\"\ failures=\"([0-9]+)\"\ disabled=\"([0-9]+)\"\ skipped=\"([0-9]+)\" ]]; then
    echo "do: cannot read the counts of $report" >&2
    n_failed=$((n_failed + 1))
    return
  fi
  tests=${BASH_REMATCH[1]} failures=${BASH_REMATCH[2]} disabled=${BASH_REMATCH[3]} skipped=${BASH_REMATCH[4]}
  n_passed=$((n_passed + tests - failures - disabled - skipped))
  n_failed=$((n_failed + failures))
  n_skipped=$((n_skipped + disabled + skipped))
  if ((rc != 0)); then
    cat "$folder/ctest.log"
    # A crash of ctest itself must not look like a success.
    ((failures > 0)) || n_failed=$((n_failed + 1))
  else
    grep -E "tests passed|^Total Test time" "$folder/ctest.log" || true
  fi
}

# Runs a script as one test.
run_step() {
  local name=$1
  shift
  if "$@"; then
    n_passed=$((n_passed + 1))
  else
    echo "FAILED: $name" >&2
    n_failed=$((n_failed + 1))
  fi
}

# Runs the tests of a folder of tests/ with Node's own test runner.
run_node_tests() {
  local name=$1
  local -a files
  mapfile -t files < <(find "tests/$name" -name '*.test.mjs' | sort)
  if ((${#files[@]} == 0)); then
    echo "FAILED: tests/$name holds no *.test.mjs" >&2
    n_failed=$((n_failed + 1))
    return
  fi
  local log=build/test/$name.log rc=0
  HOUSELEEK=$PWD/build/test/houseleek node --test --test-reporter=tap "${files[@]}" >"$log" 2>&1 || rc=$?
  local pass fail skip
  pass=$(sed -n 's/^# pass //p' "$log") fail=$(sed -n 's/^# fail //p' "$log") skip=$(sed -n 's/^# skipped //p' "$log")
  n_passed=$((n_passed + ${pass:-0}))
  n_failed=$((n_failed + ${fail:-0}))
  n_skipped=$((n_skipped + ${skip:-0}))
  if ((rc != 0)) || [[ -z $pass ]]; then
    cat "$log"
    ((${fail:-0} > 0)) || n_failed=$((n_failed + 1))
  else
    echo "$name: $pass passed"
  fi
}

closing_line() {
  local line="$n_passed passed, $n_failed failed"
  ((n_skipped == 0)) || line+=", $n_skipped skipped"
  echo "$line"
  ((n_failed == 0 && n_passed > 0))
}

do_test() {
  ensure_packages "${packages_build[@]}" "${packages_test[@]}" "${packages_browser[@]}"
  ensure_node
  run_step "npm ci" install_node_packages
  configure_and_build test
  local rows=$PWD/build/test/validation
  rm -rf "$rows"
  mkdir -p "$rows"
  HOUSELEEK_VALIDATION_DIR=$rows run_ctest build/test --label-exclude long
  run_step "docs/validation.md" "$python" tools/merge_validation.py "$rows" docs/validation.md
  run_node_tests schema
  run_step "types of the page (tsc)" node node_modules/typescript/bin/tsc -p web
  run_node_tests browser
  closing_line
}

do_test_long() {
  ensure_packages "${packages_build[@]}" "${packages_test[@]}"
  configure_and_build test
  if ctest --test-dir build/test --show-only --label-regex '^long$' | grep -q '^Total Tests: 0'; then
    echo "There are no long tests yet."
    return 0
  fi
  run_ctest build/test --label-regex '^long$'
  closing_line
}

do_check() {
  ensure_packages "${packages_build[@]}" "${packages_test[@]}" "${packages_check[@]}"
  configure_and_build test
  run_step "clang-format" tools/check_format.sh
  run_step "directions of includes: self-test" "$python" tools/check_layers.py --self-test
  run_step "directions of includes" "$python" tools/check_layers.py
  run_step "doc comments: self-test" "$python" tools/check_docs.py --self-test
  run_step "doc comments" "$python" tools/check_docs.py
  run_step "no hidden state, no libm: self-test" tools/check_statics.sh --self-test
  run_step "no hidden state, no libm" tools/check_statics.sh
  run_step "reference tests: self-test" "$python" tools/check_reference_tests.py --self-test
  run_step "reference tests" "$python" tools/check_reference_tests.py
  run_step "lock file names no registry" tools/check_lock_file.sh
  run_step "set-up without rights" tools/check_packages.sh
  run_step "second compiler and library" tools/check_compiler.sh libcxx
  run_step "names and globals (clang-tidy)" tools/check_compiler.sh tidy
  run_ctest build/test --label-exclude 'long|slow'
  closing_line
}

do_check_full() {
  ensure_packages "${packages_build[@]}" "${packages_test[@]}" "${packages_check[@]}"
  rm -rf build/check
  do_check
  configure_and_build sanitize
  n_passed=0 n_failed=0 n_skipped=0
  run_ctest build/sanitize --label-exclude 'long|slow'
  closing_line
  n_passed=0 n_failed=0 n_skipped=0
  do_test
}

do_bench() {
  ensure_packages "${packages_build[@]}" "${packages_bench[@]}"
  configure_and_build bench
  local -a programs
  mapfile -t programs < <(find build/bench/bench -maxdepth 1 -name '*_bench' -type f -executable | sort)
  if ((${#programs[@]} == 0)); then
    echo "There are no benchmarks yet."
    return 0
  fi
  local program rc=0
  for program in "${programs[@]}"; do
    echo "== ${program##*/}"
    "$program" || rc=1
  done
  return "$rc"
}

do_onefile() {
  echo "do: the one-file page does not exist yet" >&2
  exit 2
}

if [[ ${2:-} == --help || ${2:-} == -h ]]; then
  usage
  exit 0
fi
if (($# != 1)); then
  usage >&2
  exit 2
fi
case $1 in
  build) do_build ;;
  demo) do_demo ;;
  logbook) do_logbook ;;
  test) do_test ;;
  check) do_check ;;
  bench) do_bench ;;
  test-long) do_test_long ;;
  check-full) do_check_full ;;
  onefile) do_onefile ;;
  -h | --help | help) usage ;;
  *)
    echo "do: there is no word '$1'" >&2
    usage >&2
    exit 2
    ;;
esac
