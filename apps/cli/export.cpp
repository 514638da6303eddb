// houseleek export: a design out of a project, byte for byte, and what else is in it as tables.
#include "export.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <vector>

#include "base/issue_text.hpp"
#include "files.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "report/logbook_text.hpp"
#include "report/project_tables.hpp"
#include "studies/keep_design.hpp"
#include "studies/project_rows.hpp"

namespace houseleek::cli {
namespace {

std::vector<report::TableFile> write_tables(const store::Project& project, const std::string& folder) {
  std::filesystem::create_directories(folder);
  std::vector<report::TableFile> tables;
  const auto write_table = [&](const std::string& name, const auto& rows) {
    const std::string path = (std::filesystem::path(folder) / (name + ".csv")).string();
    NewFile(path).finish(report::csv_from(rows));
    tables.push_back({name, path, rows.size()});
  };
  write_table("revisions", studies::revision_rows(project));
  write_table("events", store::read_events(project));
  write_table("results", studies::result_rows(project));
  return tables;
}

}  // namespace

ExitCode run_export(const ExportArguments& arguments) {
  if (is_refused_description("export", arguments.file)) return ExitCode::usage;
  const store::Project project = open_project_file(arguments.file, store::Access::read);
  const Result<store::Revision> revision = studies::find_revision(project, arguments.revision);
  if (!revision) {
    if (arguments.is_json) write_answer(report::text_from(report::json_of_refusal("export", revision.error())));
    write_message(text_from_issues(revision.error(), ""));
    return ExitCode::bad_input;
  }
  std::vector<report::TableFile> tables;
  if (!arguments.tables_path.empty()) tables = write_tables(project, arguments.tables_path);
  if (arguments.is_json) {
    write_answer(report::text_from(report::json_of_export(arguments.file, studies::row_from(revision.value()),
                                                          revision.value().toml_text, tables)));
  } else if (tables.empty()) {
    write_answer(revision.value().toml_text);
  }
  for (const report::TableFile& table : tables) {
    write_message(fmt::format("{}: {} row{}\n", table.file, table.n_rows, table.n_rows == 1 ? "" : "s"));
  }
  return ExitCode::done;
}

}  // namespace houseleek::cli
