// Reasons that stand once below a table, marked by letters in its cells.
#pragma once
#include <string>
#include <vector>

#include "report/html.hpp"

namespace houseleek::report {

/// The reason that most cells share needs no letter.
class Notes {
 public:
  /// Called once for every cell before any mark is made.
  void count(const std::string& reason);
  [[nodiscard]] Html mark(const std::string& reason) const;
  [[nodiscard]] Html list() const;

 private:
  [[nodiscard]] const std::string& shared() const;
  std::vector<std::string> reasons_;
  std::vector<int> counts_;
};

}  // namespace houseleek::report
