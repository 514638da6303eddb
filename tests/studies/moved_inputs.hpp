// Changes of the small house's description, each of which must move some number of its study.
#pragma once
#include <string_view>
#include <vector>

#include "studies/small_study.hpp"

namespace houseleek::tests {

struct Change {
  std::string_view name;
  std::vector<Edit> edits;
  void (*options)(studies::StudyOptions&) = nullptr;
};

[[nodiscard]] std::vector<Change> all_changes();

}  // namespace houseleek::tests
