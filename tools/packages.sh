# The Debian packages of each set, and how a set is made complete. Sourced by ./do; installs only what is missing.
# What is here in another way than by dpkg counts as well: programs in PATH, headers that the compiler finds (CPATH,
# CPLUS_INCLUDE_PATH), so that no rights are needed where everything is there.

# What `./do build` and `./do demo` need: a compiler, CMake, and the libraries that the program links.
packages_build=(g++ cmake ninja-build ccache libfmt-dev nlohmann-json3-dev libhowardhinnant-date-dev
  libfast-float-dev libtomlplusplus-dev libcli11-dev tzdata libboost-dev libeigen3-dev libsqlite3-dev)
# Tests: GoogleTest, general-purpose solvers and libraries as a second opinion, Python for the scripts in tools/.
packages_test=(libgtest-dev libsundials-dev python3 python3-scipy r-cran-survival coinor-cbc)
# Formatting, static analysis, and the second compiler with its own standard library.
packages_check=(python3 clang-14 clang-format clang-tidy libc++-14-dev libc++abi-14-dev)
packages_bench=(libbenchmark-dev sqlite3)
# The page is tested in a browser.
packages_browser=(chromium)
# Only where no node is there yet: Debian's own brings some 370 packages along.
packages_node=(nodejs npm)

# What each package is for, and what shows that it is here without asking dpkg: a program in PATH, a header that the
# compiler finds, a file, a module of Python, or a library of R.
declare -A package_purpose=(
  [g++]="C++ compiler, 12 or newer"
  [cmake]="configures the build"
  [ninja-build]="runs the build"
  [ccache]="keeps compiled files, so that a second build takes seconds"
  [libfmt-dev]="formats text; linked into the program"
  [nlohmann-json3-dev]="writes and reads JSON"
  [libhowardhinnant-date-dev]="time zones; linked into the program"
  [libfast-float-dev]="reads numbers"
  [libtomlplusplus-dev]="reads TOML"
  [libcli11-dev]="reads the command line"
  [tzdata]="the table of time zones"
  [libboost-dev]="polygons and distributions of probability"
  [libeigen3-dev]="matrices of fits"
  [libsqlite3-dev]="the project file; linked into the program"
  [libgtest-dev]="runs the tests"
  [libsundials-dev]="solves the same equations as a second opinion in tests"
  [python3]="runs the scripts in tools/"
  [python3-scipy]="a second opinion in tests"
  [r-cran-survival]="R with its package for lives, a second opinion in tests"
  [coinor-cbc]="solves integer programs as a second opinion in tests"
  [clang-14]="the second compiler"
  [clang-format]="formats C++"
  [clang-tidy]="checks names"
  [libc++-14-dev]="the second standard library"
  [libc++abi-14-dev]="the second standard library"
  [libbenchmark-dev]="runs the timings"
  [sqlite3]="imports the same readings, to compare with"
  [chromium]="the browser in which the page is tested"
  [nodejs]="builds the page, and checks documents against their schemas"
  [npm]="fetches what those checks need"
)
declare -A package_sign=(
  [g++]="program g++" [cmake]="program cmake" [ninja-build]="program ninja" [ccache]="program ccache"
  [libfmt-dev]="header fmt/format.h" [nlohmann-json3-dev]="header nlohmann/json.hpp"
  [libhowardhinnant-date-dev]="header date/tz.h" [libfast-float-dev]="header fast_float/fast_float.h"
  [libtomlplusplus-dev]="header toml++/toml.h" [libcli11-dev]="header CLI/CLI.hpp"
  [tzdata]="file /usr/share/zoneinfo/Europe/Athens" [libboost-dev]="header boost/version.hpp"
  [libeigen3-dev]="header eigen3/Eigen/Core" [libsqlite3-dev]="header sqlite3.h" [libgtest-dev]="header gtest/gtest.h" [libsundials-dev]="header ida/ida.h"
  [python3]="program python3" [python3-scipy]="module scipy" [coinor-cbc]="program cbc"
  [r-cran-survival]="library survival" [clang-14]="program clang++-14"
  [clang-format]="program clang-format" [clang-tidy]="program clang-tidy"
  [libc++-14-dev]="file /usr/lib/llvm-14/include/c++/v1/version"
  [libc++abi-14-dev]="file /usr/lib/llvm-14/lib/libc++abi.so" [libbenchmark-dev]="header benchmark/benchmark.h" [sqlite3]="program sqlite3"
  [chromium]="program chromium" [nodejs]="program node" [npm]="program npm"
)

# True if the sign of a package is here.
is_sign_here() {
  local sign=${package_sign[$1]:-none}
  local kind=${sign%% *} thing=${sign#* }
  case $kind in
    program) command -v "$thing" >/dev/null ;;
    header)
      printf '#if !__has_include(<%s>)\n#error absent\n#endif\n' "$thing" | g++ -x c++ -E - >/dev/null 2>&1
      ;;
    file) [[ -e $thing ]] ;;
    module) "${python:-python3}" -c "import $thing" 2>/dev/null ;;
    library) Rscript -e "library($thing)" >/dev/null 2>&1 ;;
    *) return 1 ;;
  esac
}

# Prints the packages among its arguments that are neither installed nor here in another way.
missing_packages() {
  local name installed
  # One name a line; dpkg-query fails where it knows one of them not.
  installed=$(dpkg-query -W -f='${db:Status-Status} ${Package}\n' "$@" 2>/dev/null | sed -n 's/^installed //p') || true
  for name in "$@"; do
    [[ $'\n'$installed$'\n' == *$'\n'"$name"$'\n'* ]] || is_sign_here "$name" || printf '%s\n' "$name"
  done
}

# Says on stderr what is missing and what each is for.
list_missing() {
  local name
  for name in "$@"; do printf '    %-27s %s\n' "$name" "${package_purpose[$name]:-}" >&2; done
}

# Installs what is missing of its arguments: as root, else with sudo; else says what to run and ends with 3.
ensure_packages() {
  local names
  names=$(missing_packages "$@" | sort -u)
  [[ $names ]] || return 0
  local -a missing=($names)
  local -a install=(apt-get install -y --no-install-recommends "${missing[@]}")
  local -a as_root=()
  if ! command -v apt-get >/dev/null; then
    echo "do: these are missing, and there is no apt-get to install them (the names are Debian 12's):" >&2
    list_missing "${missing[@]}"
    echo "Install them another way, where PATH, the compiler (CPATH) and CMake (CMAKE_PREFIX_PATH) find them." >&2
    exit 3
  fi
  if ((EUID != 0)); then
    if command -v sudo >/dev/null && { sudo -n true 2>/dev/null || [[ -t 0 ]]; }; then
      as_root=(sudo)
    else
      echo "do: these packages are missing, and there are no rights to install them:" >&2
      list_missing "${missing[@]}"
      echo "Have somebody with rights run this, then try again:" >&2
      echo "    apt-get update && ${install[*]}" >&2
      echo "or install them another way, where PATH, the compiler (CPATH) and CMake (CMAKE_PREFIX_PATH) find them." >&2
      exit 3
    fi
  fi
  echo "do: installing ${missing[*]}" >&2
  mkdir -p build
  local log=build/apt.log
  if ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update >"$log" 2>&1 ||
    ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive "${install[@]}" >>"$log" 2>&1; then
    tail -n 20 "$log" >&2
    echo "do: could not install; the whole output is in $log. Missing are:" >&2
    list_missing "${missing[@]}"
    exit 3
  fi
}

# A node from elsewhere is as good as Debian's.
ensure_node() {
  if command -v node >/dev/null && command -v npm >/dev/null; then return 0; fi
  ensure_packages "${packages_node[@]}"
}
