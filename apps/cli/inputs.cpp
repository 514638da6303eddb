// What commands read before they answer: the catalogue inside the program, a design file, its weather file; how they
// refuse.
#include "inputs.hpp"

#include <fmt/format.h>

#include <filesystem>

#include "base/issue_text.hpp"
#include "design/limits.hpp"
#include "embedded.hpp"
#include "files.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "studies/keep_design.hpp"

namespace houseleek::cli {
namespace {

// A year of hours with every column and long numbers has 2 MB.
constexpr std::size_t most_weather_bytes = 50'000'000;

}  // namespace

catalogue::Catalogue read_embedded_catalogue() {
  Result<catalogue::Catalogue> read = catalogue::read_catalogue(embedded_catalogue());
  if (!read) throw ContractViolation("the catalogue inside the program:\n" + text_from_issues(read.error(), ""));
  return std::move(read).value();
}

studies::NamedText read_design_file(const std::string& path) {
  std::string text = read_file(path, design::limits::file.max_bytes);
  if (!is_project(text)) return {path, std::move(text)};
  const store::Project project = open_project_file(path, store::Access::read);
  const Result<store::Revision> newest = studies::find_revision(project, std::nullopt);
  return {fmt::format("{} revision {}", path, newest.value().number), newest.value().toml_text};
}

std::optional<studies::NamedText> read_weather_file(const design::ValidDesign& design, const std::string& design_path) {
  if (!design->climate.file) return std::nullopt;
  const std::filesystem::path path = std::filesystem::path(design_path).parent_path() / *design->climate.file;
  std::string text = read_file(path.string(), most_weather_bytes);
  if (text.size() > most_weather_bytes) {
    throw WorldFailed(fmt::format("{} is larger than {} bytes", path.string(), most_weather_bytes));
  }
  return studies::NamedText{path.string(), std::move(text)};
}

ExitCode refuse_input(std::string_view command, const Issues& issues, std::string_view source_text, bool is_json) {
  if (is_json) write_answer(report::text_from(report::json_of_refusal(command, issues)));
  write_message(text_from_issues(issues, source_text));
  return ExitCode::bad_input;
}

}  // namespace houseleek::cli
