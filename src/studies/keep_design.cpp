// `houseleek import` and `export`: a design into a project as a new revision, and out of it again.
#include "studies/keep_design.hpp"

#include <fmt/format.h>

#include "design/parse.hpp"

namespace houseleek::studies {

Issues issues_of_design(const NamedText& file, const catalogue::Catalogue& catalogue) {
  const Result<design::ValidDesign> design = design::read_design(file.text, file.name, catalogue);
  return design ? Issues() : design.error();
}

KeptDesign keep_design(const store::Project& project, const NamedText& file, const std::string& note,
                       std::int64_t now_utc_s) {
  const std::optional<store::Revision> newest = store::read_newest_revision(project);
  if (newest && newest->toml_text == file.text) return {newest->number, false};
  return {store::add_revision(project, {file.text, note, now_utc_s}), true};
}

Result<store::Revision> find_revision(const store::Project& project, std::optional<std::int64_t> number) {
  const std::optional<store::Revision> newest = store::read_newest_revision(project);
  expects(newest.has_value(), "a project with a design");
  if (!number) return *newest;
  const std::optional<store::Revision> found = store::read_revision(project, *number);
  if (found) return *found;
  Issue issue;
  issue.code = IssueCode::unknown_name;
  issue.path = "revision";
  issue.value = std::to_string(*number);
  issue.limit = fmt::format("from 1 to {}", newest->number);
  issue.message = fmt::format("there is no revision {}; the project has {}", *number, newest->number);
  issue.hint = "the newest is taken where --revision is left away";
  return Unexpected{{issue}};
}

}  // namespace houseleek::studies
