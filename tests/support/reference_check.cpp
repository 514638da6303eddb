// Compares with a published number, reports through GoogleTest, and keeps the row for docs/validation.md.
#include "support/reference_check.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string_view>

namespace houseleek::tests {
namespace {

// 17 digits would make the generated page change with every compiler; 9 show what a person needs.
std::string text_of(double value, const char* format) {
  char buffer[64];
  const int n_chars = std::snprintf(buffer, sizeof buffer, format, value);
  return std::string(buffer, n_chars > 0 ? static_cast<std::size_t>(n_chars) : 0);
}

std::string one_line(std::string text) {
  for (char& c : text) {
    if (c == '\t' || c == '\n' || c == '\r') c = ' ';
  }
  return text;
}

std::string place_in_tree(std::string_view file, int line) {
  // The compiler is handed the path in full, or from the build folder where a cache of compiled files wants it so.
  const std::size_t before = file.rfind("/tests/");
  if (before != std::string_view::npos) file.remove_prefix(before + 1);
  return std::string(file) + ":" + std::to_string(line);
}

double scale_of(const ReferenceCheck& check) { return check.scale != 0.0 ? check.scale : std::abs(check.expected); }

std::string first_missing_text(const ReferenceCheck& check) {
  if (check.id.empty()) return "id";
  if (check.what.empty()) return "what";
  if (check.source.empty()) return "source";
  if (check.reason.empty()) return "reason";
  if (check.function.empty()) return "function";
  return "";
}

}  // namespace

Comparison compare(const ReferenceCheck& check) {
  Comparison result;
  result.difference = check.got - check.expected;
  const bool can_compare = std::isfinite(check.got) && std::isfinite(check.expected) &&
                           std::isfinite(check.tolerance) && check.tolerance >= 0.0;
  result.is_within = can_compare && std::abs(result.difference) <= check.tolerance;
  const double one_percent = 0.01 * scale_of(check);
  result.would_see_one_percent = can_compare && one_percent > check.tolerance;
  if (!result.is_within) {
    result.message = check.id + ": " + check.what + "\n  expected   " + text_of(check.expected, "%.12g") +
                     "\n  got        " + text_of(check.got, "%.12g") + "\n  difference " +
                     text_of(result.difference, "%.6g") + "\n  tolerance  " + text_of(check.tolerance, "%.6g") + " (" +
                     check.reason + ")\n  source     " + check.source + "\n  function   " + check.function;
  }
  return result;
}

std::string validation_row(const ReferenceCheck& check, const Comparison& comparison, const std::string& place) {
  std::string row = one_line(check.id);
  for (const std::string& field : {check.what, check.source, text_of(check.expected, "%.9g"),
                                   text_of(check.got, "%.9g"), text_of(check.tolerance, "%.3g"), check.reason,
                                   check.function, place, std::string(comparison.is_within ? "yes" : "no"),
                                   std::string(comparison.would_see_one_percent ? "yes" : "no")}) {
    row += '\t' + one_line(field);
  }
  return row;
}

void check_reference(const ReferenceCheck& check, const char* file, int line) {
  const std::string missing = first_missing_text(check);
  if (!missing.empty()) {
    ADD_FAILURE_AT(file, line) << "reference check '" << check.id << "' has no " << missing;
    return;
  }
  const Comparison comparison = compare(check);
  if (!comparison.is_within) ADD_FAILURE_AT(file, line) << comparison.message;

  const char* folder = std::getenv("HOUSELEEK_VALIDATION_DIR");
  if (folder == nullptr || *folder == '\0') return;
  // Processes run side by side under ctest; a file each keeps their lines apart.
  const std::filesystem::path path = std::filesystem::path(folder) / ("rows-" + std::to_string(getpid()) + ".tsv");
  std::ofstream rows(path, std::ios::app);
  rows << validation_row(check, comparison, place_in_tree(file, line)) << '\n';
  rows.flush();
  if (!rows) ADD_FAILURE_AT(file, line) << "cannot write " << path;
}

}  // namespace houseleek::tests
