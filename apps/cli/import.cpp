// houseleek import: a description into a project, as its newest revision.
#include "import.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>

#include "base/issue_text.hpp"
#include "design/limits.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "studies/keep_design.hpp"

namespace houseleek::cli {
namespace {

studies::KeptDesign keep(const ImportArguments& arguments, const studies::NamedText& file, bool is_there) {
  const auto keep_in = [&](const store::Project& project) {
    return studies::keep_design(project, file, arguments.note, now_utc_s());
  };
  if (is_there) return keep_in(open_project_file(arguments.project_path, store::Access::write));
  studies::KeptDesign kept;
  make_project_file(arguments.project_path, [&](const store::Project& project) { kept = keep_in(project); });
  return kept;
}

}  // namespace

ExitCode run_import(const ImportArguments& arguments) {
  const studies::NamedText file = {arguments.file, read_file(arguments.file, design::limits::file.max_bytes)};
  if (is_project(file.text)) {
    write_message(fmt::format("houseleek: {} is a project; import takes a description (roof.toml)\n", arguments.file));
    return ExitCode::usage;
  }
  const Issues issues = studies::issues_of_design(file, read_embedded_catalogue());
  if (!issues.empty()) {
    if (arguments.is_json) write_answer(report::text_from(report::json_of_refusal("import", issues)));
    write_message(text_from_issues(issues, file.text));
    return ExitCode::bad_input;
  }
  std::error_code ignored;  // opening or making it says better what is wrong
  const bool is_there = std::filesystem::exists(arguments.project_path, ignored);
  const studies::KeptDesign kept = keep(arguments, file, is_there);
  if (arguments.is_json) {
    write_answer(report::text_from({{"answer", "import"},
                                    {"project", arguments.project_path},
                                    {"is_new_project", !is_there},
                                    {"revision", kept.revision},
                                    {"is_new_revision", kept.is_new}}));
    return ExitCode::done;
  }
  write_answer(kept.is_new ? fmt::format("{}: {}revision {} of the design\n", arguments.project_path,
                                         is_there ? "" : "a new project, ", kept.revision)
                           : fmt::format("{}: revision {} has the very same text; nothing was written\n",
                                         arguments.project_path, kept.revision));
  return ExitCode::done;
}

}  // namespace houseleek::cli
