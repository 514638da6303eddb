// What a project holds as tables and documents for other programs; the logbook has its own (report/logbook_text.hpp).
#include "report/project_tables.hpp"

#include <fmt/format.h>

#include "report/logbook_text.hpp"
#include "report/trial_json.hpp"

namespace houseleek::report {

std::string csv_from(std::span<const RevisionRow> rows) {
  std::string text = "revision,saved_at,note,n_bytes,sha256\n";
  for (const RevisionRow& row : rows) {
    text += fmt::format("{},{},{},{},{}\n", row.number, row.saved_at, csv_field(row.note), row.n_bytes, row.sha256);
  }
  return text;
}

std::string csv_from(std::span<const ResultRow> rows) {
  std::string text = "result,revision,made_at,command,engine_version,options_json,seed,input_hash,answer_json\n";
  for (const ResultRow& row : rows) {
    text += fmt::format("{},{},{},{},{},{},{},{},{}\n", row.number, row.revision, row.made_at, csv_field(row.command),
                        csv_field(row.engine_version), csv_field(row.options_json), row.seed, row.input_hash,
                        csv_field(row.answer_json));
  }
  return text;
}

Json json_of_export(const std::string& project, const RevisionRow& revision, const std::string& toml_text,
                    std::span<const TableFile> tables) {
  Json list = Json::array();
  for (const TableFile& table : tables) {
    list.push_back({{"name", table.name}, {"file", table.file}, {"n_rows", table.n_rows}});
  }
  return {{"answer", "export"},
          {"project", project},
          {"revision",
           {{"number", revision.number},
            {"saved_at", revision.saved_at},
            {"note", revision.note},
            {"sha256", revision.sha256},
            {"toml", toml_text}}},
          {"tables", std::move(list)}};
}

Json json_of_logger_import(const LoggerFileAnswer& answer) {
  Json findings = Json::array();
  for (const climate::Finding& finding : answer.findings) {
    findings.push_back({{"about", finding.about}, {"is", finding.is}, {"evidence", finding.evidence}});
  }
  return {{"answer", "import"},
          {"project", answer.project},
          {"readings",
           {{"file", answer.file},
            {"n_rows", answer.n_rows},
            {"n_added", answer.n_added},
            {"n_known_before", answer.n_known_before},
            {"n_missing", answer.n_missing},
            {"findings", std::move(findings)},
            {"flags", json_from_flags(answer.flags)}}}};
}

}  // namespace houseleek::report
