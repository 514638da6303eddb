// Names as people type them: compared without case and doubled spaces, and the nearest known one for a hint.
#include "base/nearest_name.hpp"

#include <algorithm>
#include <vector>

namespace houseleek {
namespace {

// Longer than any known name; keeps a pasted page from costing minutes.
constexpr std::size_t longest_compared = 80;

char lower_from(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

}  // namespace

std::string folded_name(std::string_view name) {
  std::string folded;
  for (const char c : name) {
    const bool is_blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (is_blank && (folded.empty() || folded.back() == ' ')) continue;
    folded += is_blank ? ' ' : lower_from(c);
  }
  while (!folded.empty() && folded.back() == ' ') folded.pop_back();
  return folded;
}

int edit_distance(std::string_view a, std::string_view b) {
  const std::size_t n_columns = b.size() + 1;
  std::vector<int> before_last(n_columns);
  std::vector<int> last(n_columns);
  std::vector<int> current(n_columns);
  for (std::size_t j = 0; j < n_columns; ++j) last[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    current[0] = static_cast<int>(i);
    for (std::size_t j = 1; j < n_columns; ++j) {
      const int changed = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      current[j] = std::min({last[j] + 1, current[j - 1] + 1, changed});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        current[j] = std::min(current[j], before_last[j - 2] + 1);
      }
    }
    std::swap(before_last, last);
    std::swap(last, current);
  }
  return last[b.size()];
}

std::optional<std::string> find_nearest_name(std::string_view typed, std::span<const std::string> known) {
  const std::string folded = folded_name(typed);
  if (folded.empty() || folded.size() > longest_compared) return std::nullopt;
  std::optional<std::string> nearest;
  int fewest_edits = std::max(1, static_cast<int>(folded.size()) / 3) + 1;
  for (const std::string& name : known) {
    const std::string candidate = folded_name(name);
    if (candidate.size() > folded.size() && folded.size() >= 3 && candidate.starts_with(folded)) return name;
    const int n_edits = edit_distance(folded, candidate);
    if (n_edits < fewest_edits) {
      fewest_edits = n_edits;
      nearest = name;
    }
  }
  return nearest;
}

}  // namespace houseleek
