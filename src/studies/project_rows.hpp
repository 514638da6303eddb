// Rows of a project in the form in which tables list them.
#pragma once
#include <vector>

#include "report/project_tables.hpp"
#include "store/records.hpp"

namespace houseleek::studies {

[[nodiscard]] report::RevisionRow row_from(const store::Revision& revision);

/// Oldest first. Errors: StoreError.
[[nodiscard]] std::vector<report::RevisionRow> revision_rows(const store::Project& project);
[[nodiscard]] std::vector<report::ResultRow> result_rows(const store::Project& project);

}  // namespace houseleek::studies
