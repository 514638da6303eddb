// houseleek import: a description into a project, as its newest revision; a table of events; or a logger's readings.
#include "import.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>

#include "design/limits.hpp"
#include "files.hpp"
#include "inputs.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "report/project_tables.hpp"
#include "report/trial_text.hpp"
#include "studies/event_file.hpp"
#include "studies/keep_design.hpp"
#include "studies/logbook.hpp"
#include "studies/logger_file.hpp"
#include "studies/trial_judge.hpp"

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

/// As much of a file as tells its dialect, without a last line that is cut.
std::string first_lines_of(const std::string& path) {
  constexpr std::size_t enough_bytes = 200'000;
  std::string text = read_file(path, enough_bytes);
  if (text.size() > enough_bytes) text.resize(text.rfind('\n', enough_bytes) + 1);
  return text;
}

studies::LoggerRules rules_from(const ImportArguments& arguments) {
  studies::LoggerRules rules;
  rules.logger = arguments.logger;
  if (arguments.clock == "standard") rules.clock = climate::FileClock::standard;
  if (arguments.clock == "daylight_saving") rules.clock = climate::FileClock::daylight_saving;
  if (arguments.clock == "utc") rules.clock = climate::FileClock::utc;
  if (arguments.date_order == "day_first") rules.date_order = climate::DateOrder::day_first;
  if (arguments.date_order == "month_first") rules.date_order = climate::DateOrder::month_first;
  if (arguments.unit == "degC") rules.unit = climate::Unit::deg_c;
  if (arguments.unit == "degF") rules.unit = climate::Unit::deg_f;
  return rules;
}

ExitCode import_readings(const ImportArguments& arguments) {
  if (is_refused_description("import of readings", arguments.project_path)) return ExitCode::usage;
  const std::string first_lines = first_lines_of(arguments.file);
  const store::Project project = open_project_file(arguments.project_path, store::Access::write);
  const std::string zone = studies::zone_of_project(project);
  const Result<studies::LoggerDialect> dialect =
      studies::find_logger_dialect(first_lines, arguments.file, zone, rules_from(arguments));
  if (!dialect) return refuse_input("import", dialect.error(), first_lines, arguments.is_json);
  studies::LoggerImport import(project, dialect.value(), {arguments.file, zone, now_utc_s()});
  read_in_pieces(arguments.file, [&import](std::string_view piece) { import.take(piece); });
  const Result<studies::LoggerCounts> counts = import.finish();
  if (!counts) return refuse_input("import", counts.error(), "", arguments.is_json);
  studies::ImportedReadings imported{{}, counts.value().first_utc_s, counts.value().last_utc_s};
  for (const studies::LoggerColumnUse& use : dialect.value().columns) imported.sensors.push_back(use.sensor);
  const std::vector<trials::LoggerFlag> flags =
      studies::flags_of_import(project, read_embedded_catalogue(), zone, imported);
  if (arguments.is_json) {
    write_answer(report::text_from(report::json_of_logger_import(
        {arguments.project_path, arguments.file, counts.value().n_rows, counts.value().n_added,
         counts.value().n_known_before, counts.value().n_missing, dialect.value().findings, flags})));
    return ExitCode::done;
  }
  for (const climate::Finding& finding : dialect.value().findings) {
    write_message(fmt::format("  {}: {} ({})\n", finding.about, finding.is, finding.evidence));
  }
  write_answer(fmt::format("{}: {} readings from {} rows; {} were there already, {} fields have no value\n",
                           arguments.project_path, counts.value().n_added, counts.value().n_rows,
                           counts.value().n_known_before, counts.value().n_missing));
  constexpr std::size_t most_flags = 10;
  if (!flags.empty()) {
    write_answer(
        fmt::format("Looks wrong (flagged, and kept as it is):\n{}", report::text_from_flags(flags, most_flags)));
  }
  return ExitCode::done;
}

ExitCode import_table_of_events(const ImportArguments& arguments) {
  constexpr std::size_t most_bytes = 50'000'000;
  if (is_refused_description("import of events", arguments.project_path)) return ExitCode::usage;
  const studies::NamedText file = {arguments.file, read_file(arguments.file, most_bytes)};
  if (file.text.size() > most_bytes) {
    throw WorldFailed(fmt::format("{} is larger than {} bytes", arguments.file, most_bytes));
  }
  const store::Project project = open_project_file(arguments.project_path, store::Access::write);
  const Result<studies::EventCounts> counts = studies::import_events(project, file, now_utc_s());
  if (!counts) return refuse_input("import", counts.error(), file.text, arguments.is_json);
  if (arguments.is_json) {
    write_answer(report::text_from({{"answer", "import"},
                                    {"project", arguments.project_path},
                                    {"events",
                                     {{"file", arguments.file},
                                      {"n_rows", counts.value().n_rows},
                                      {"n_added", counts.value().n_added},
                                      {"n_known_before", counts.value().n_known_before},
                                      {"n_no_longer", counts.value().n_no_longer}}}}));
    return ExitCode::done;
  }
  const std::string no_longer = counts.value().n_no_longer == 0
                                    ? ""
                                    : fmt::format(", {} had been corrected or withdrawn", counts.value().n_no_longer);
  write_answer(fmt::format("{}: {} events from {} rows; {} were there already{}\n", arguments.project_path,
                           counts.value().n_added, counts.value().n_rows, counts.value().n_known_before, no_longer));
  return ExitCode::done;
}

}  // namespace

ExitCode run_import(const ImportArguments& arguments) {
  if (arguments.is_events) return import_table_of_events(arguments);
  if (!arguments.logger.empty()) return import_readings(arguments);
  const studies::NamedText file = {arguments.file, read_file(arguments.file, design::limits::file.max_bytes)};
  if (is_project(file.text)) {
    write_message(fmt::format("houseleek: {} is a project; import takes a description (roof.toml)\n", arguments.file));
    return ExitCode::usage;
  }
  const Issues issues = studies::issues_of_design(file, read_embedded_catalogue());
  if (!issues.empty()) {
    const ExitCode code = refuse_input("import", issues, file.text, arguments.is_json);
    if (issues.front().code == IssueCode::syntax && std::filesystem::path(arguments.file).extension() != ".toml") {
      write_message("houseleek: if this is a logger's file, say so: --logger and its name\n");
    }
    return code;
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
