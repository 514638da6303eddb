// `houseleek import` and `export`: a design into a project as a new revision, and out of it again.
#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "base/result.hpp"
#include "catalogue/catalogue.hpp"
#include "store/records.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// What is wrong with a description, as `check` says it; nothing where it may be kept.
[[nodiscard]] Issues issues_of_design(const NamedText& file, const catalogue::Catalogue& catalogue);

struct KeptDesign {
  std::int64_t revision = 0;
  bool is_new = false;  // false: the newest revision has the very same text
};

/// Keeps a description that has no issues; on the disk when it returns. Errors: StoreError.
[[nodiscard]] KeptDesign keep_design(const store::Project& project, const NamedText& file, const std::string& note,
                                     std::int64_t now_utc_s);

/// A revision by its number, or the newest. Errors: an issue with the path "revision"; StoreError.
[[nodiscard]] Result<store::Revision> find_revision(const store::Project& project, std::optional<std::int64_t> number);

}  // namespace houseleek::studies
