// Rows of a project in the form in which tables list them.
#include "studies/project_rows.hpp"

#include "base/civil_time.hpp"
#include "base/sha256.hpp"

namespace houseleek::studies {

report::RevisionRow row_from(const store::Revision& revision) {
  return {revision.number, text_from_utc(revision.saved_utc_s), revision.note, revision.toml_text.size(),
          sha256_hex(revision.toml_text)};
}

std::vector<report::RevisionRow> revision_rows(const store::Project& project) {
  std::vector<report::RevisionRow> rows;
  for (const store::Revision& revision : store::read_revisions(project)) rows.push_back(row_from(revision));
  return rows;
}

std::vector<report::ResultRow> result_rows(const store::Project& project) {
  std::vector<report::ResultRow> rows;
  for (const store::StoredResult& result : store::read_results(project)) {
    rows.push_back({result.number, result.revision, text_from_utc(result.made_utc_s), result.command,
                    result.engine_version, result.options_json, result.seed, result.input_hash, result.answer_json});
  }
  return rows;
}

}  // namespace houseleek::studies
