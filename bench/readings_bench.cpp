// Five million readings of a logger into a project, beside the sqlite3 shell importing the same file into a plain table.
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>

namespace {

constexpr long n_readings = 5'000'000;
constexpr double bar_ratio = 2.0;

/// A reading a minute, invented: a slow wave of values of two decimals.
bool write_file(const std::string& path) {
  std::FILE* file = std::fopen(path.c_str(), "wb");
  if (file == nullptr) return false;
  std::fputs("time,temperature (degC)\n", file);
  constexpr int n_days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  int year = 2001;
  int month = 0;
  int day = 1;
  for (long i = 0; i < n_readings; ++i) {
    const long minute = i % 1440;
    std::fprintf(file, "%04d-%02d-%02dT%02ld:%02ld,%.2f\n", year, month + 1, day, minute / 60, minute % 60,
                 static_cast<double>((i * 7919) % 4000) * 0.01 - 5.0);
    if (minute != 1439) continue;
    const bool has_leap_day = month == 1 && year % 4 == 0;
    if (++day <= n_days[month] + (has_leap_day ? 1 : 0)) continue;
    day = 1;
    month = (month + 1) % 12;
    year += month == 0 ? 1 : 0;
  }
  return std::fclose(file) == 0;
}

/// Seconds on the clock; less than zero where the command failed.
double run(const std::string& command) {
  const auto start = std::chrono::steady_clock::now();
  const int status = std::system(command.c_str());
  const double wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
  return status == 0 ? wall_s : -1.0;
}

}  // namespace

int main() {
  if (std::system("sqlite3 --version > /dev/null 2>&1") != 0) {
    std::printf("MISSED: there is no sqlite3 shell to compare with (Debian: sqlite3)\n");
    return 1;
  }
  std::string folder = (std::filesystem::temp_directory_path() / "houseleek-bench-XXXXXX").string();
  if (mkdtemp(folder.data()) == nullptr || !write_file(folder + "/readings.csv")) {
    std::printf("MISSED: cannot write in %s\n", folder.c_str());
    return 1;
  }
  const std::string program = HOUSELEEK_PROGRAM;
  const std::string project = folder + "/a.houseleek";
  const double made_s = run(program + " import " HOUSELEEK_SOURCE_DIR "/examples/01-terrace-house/roof.toml --to " +
                            project + " > /dev/null");
  const double ours_s = run(program + " import " + folder + "/readings.csv --to " + project +
                            " --logger south --clock standard > /dev/null 2>&1");
  const double shell_s =
      run("sqlite3 " + folder +
          "/plain.db 'CREATE TABLE plain (time TEXT, temperature_c REAL)' '.mode csv' '.import --skip 1 " + folder +
          "/readings.csv plain' > /dev/null");
  std::filesystem::remove_all(folder);
  if (made_s < 0.0 || ours_s < 0.0 || shell_s < 0.0) {
    std::printf("MISSED: a command failed\n");
    return 1;
  }
  std::printf(
      "%ld readings into a project: %.1f s; the sqlite3 shell into a plain table: %.1f s; ratio %.2f (bar %.0f)\n",
      n_readings, ours_s, shell_s, ours_s / shell_s, bar_ratio);
  if (ours_s > bar_ratio * shell_s) {
    std::printf("MISSED: over %.0f times\n", bar_ratio);
    return 1;
  }
  return 0;
}
