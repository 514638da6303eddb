# The Debian packages of each set, and how a set is made complete. Sourced by ./do; installs only what is missing.

# What `./do build` and `./do demo` need: a compiler, CMake, and the libraries that the program links.
packages_build=(g++ cmake ninja-build ccache libfmt-dev nlohmann-json3-dev libhowardhinnant-date-dev
  libfast-float-dev libtomlplusplus-dev libcli11-dev tzdata libboost-dev libeigen3-dev)
# Tests: GoogleTest, two general-purpose libraries as a second opinion, Python for the scripts in tools/.
packages_test=(libgtest-dev libsundials-dev python3 python3-scipy)
# Formatting, static analysis, and the second compiler with its own standard library.
packages_check=(python3 clang-14 clang-format clang-tidy libc++-14-dev libc++abi-14-dev)
packages_bench=(libbenchmark-dev)
# Only where no node is there yet: Debian's own brings some 370 packages along.
packages_node=(nodejs npm)

# Prints the packages among its arguments that are not installed.
missing_packages() {
  local name
  declare -A is_installed=()
  while read -r name; do is_installed[$name]=1; done < <(
    dpkg-query -W -f='${db:Status-Status} ${Package}\n' "$@" 2>/dev/null | sed -n 's/^installed //p'
  )
  for name in "$@"; do [[ ${is_installed[$name]:-} ]] || printf '%s\n' "$name"; done
}

# Installs what is missing of its arguments: as root, else with sudo; else says what to run and ends with 3.
ensure_packages() {
  if ! command -v dpkg-query >/dev/null; then
    echo "do: no dpkg here; this script knows Debian 12 only and cannot install: $*" >&2
    exit 3
  fi
  local missing
  mapfile -t missing < <(missing_packages "$@")
  ((${#missing[@]})) || return 0
  local -a install=(apt-get install -y --no-install-recommends "${missing[@]}")
  local -a as_root=()
  if ((EUID != 0)); then
    if command -v sudo >/dev/null && { sudo -n true 2>/dev/null || [[ -t 0 ]]; }; then
      as_root=(sudo)
    else
      echo "do: packages are missing and there are no rights to install them. Run this, then try again:" >&2
      echo "    apt-get update && ${install[*]}" >&2
      exit 3
    fi
  fi
  echo "do: installing ${missing[*]}" >&2
  mkdir -p build
  local log=build/apt.log
  if ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update >"$log" 2>&1 ||
    ! "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive "${install[@]}" >>"$log" 2>&1; then
    tail -n 20 "$log" >&2
    echo "do: could not install; the whole output is in $log" >&2
    exit 3
  fi
}

# A node from elsewhere is as good as Debian's.
ensure_node() {
  if command -v node >/dev/null && command -v npm >/dev/null; then return 0; fi
  ensure_packages "${packages_node[@]}"
}
