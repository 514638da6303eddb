// Reasons that stand once below a table, marked by letters in its cells.
#include "report/notes.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace houseleek::report {
namespace {

std::string letter_of(std::size_t index) {
  return index < 26 ? std::string(1, static_cast<char>('a' + index)) : fmt::format("{}", index + 1);
}

}  // namespace

void Notes::count(const std::string& reason) {
  if (reason.empty()) return;
  const auto found = std::find(reasons_.begin(), reasons_.end(), reason);
  if (found == reasons_.end()) {
    reasons_.push_back(reason);
    counts_.push_back(1);
  } else {
    ++counts_[static_cast<std::size_t>(found - reasons_.begin())];
  }
}

Html Notes::mark(const std::string& reason) const {
  if (reason.empty() || reason == shared()) return {};
  std::size_t letter = 0;
  for (const std::string& one : reasons_) {
    if (one == reason) break;
    if (one != shared()) ++letter;
  }
  return element("sup", {{"class", "note"}}, html_from(letter_of(letter)));
}

Html Notes::list() const {
  if (reasons_.empty()) return {};
  Html items = element("li", {}, html_from(reasons_.size() == 1 ? "" : "Unless marked, ") + html_from(shared()));
  std::size_t letter = 0;
  for (const std::string& reason : reasons_) {
    if (reason == shared()) continue;
    items += element("li", {}, element_of("sup", letter_of(letter++)) + html_from(" ") + html_from(reason));
  }
  return element("ul", {{"class", "notes"}}, items);
}

const std::string& Notes::shared() const {
  const auto most = std::max_element(counts_.begin(), counts_.end());
  return reasons_[static_cast<std::size_t>(most - counts_.begin())];
}

}  // namespace houseleek::report
