// houseleek export: a design out of a project, byte for byte, and what else is in it as tables.
#include "export.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <vector>

#include "base/civil_time.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "report/logbook_text.hpp"
#include "report/project_tables.hpp"
#include "store/readings.hpp"
#include "studies/keep_design.hpp"
#include "studies/project_rows.hpp"

namespace houseleek::cli {
namespace {

/// Millions of rows: in pieces, and thrown away where a reading turns out not to be as it was written.
report::TableFile write_readings(const store::Project& project, const std::string& path) {
  constexpr std::size_t piece_bytes = 1'000'000;
  NewFile file(path);
  std::string piece = "sensor,quantity,at,value\n";
  const std::int64_t n_rows = store::read_readings(project, [&](const store::ReadingRow& row) {
    piece += fmt::format("{},{},{},{}\n", report::csv_field(row.sensor), row.quantity, text_from_utc(row.at_utc_s),
                         row.value);
    if (piece.size() < piece_bytes) return;
    file.add(piece);
    piece.clear();
  });
  file.finish(piece);
  return {"readings", path, static_cast<std::size_t>(n_rows)};
}

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
  tables.push_back(write_readings(project, (std::filesystem::path(folder) / "readings.csv").string()));
  return tables;
}

}  // namespace

ExitCode run_export(const ExportArguments& arguments) {
  if (is_refused_description("export", arguments.file)) return ExitCode::usage;
  const store::Project project = open_project_file(arguments.file, store::Access::read);
  const Result<store::Revision> revision = studies::find_revision(project, arguments.revision);
  if (!revision) {
    return refuse_input("export", revision.error(), "", arguments.is_json);
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
