// Issues, assumptions and cautions as JSON: the same three in every answer.
#include "report/issue_json.hpp"

#include "base/issue_text.hpp"

namespace houseleek::report {

Json json_from_issues(const Issues& issues) {
  Json list = Json::array();
  for (const Issue& issue : issues) {
    const bool has_place = issue.line > 0;
    list.push_back({{"code", text_from_issue_code(issue.code)},
                    {"severity", issue.severity == Severity::error ? "error" : "warning"},
                    {"path", issue.path},
                    {"file", issue.file},
                    {"line", has_place ? Json(issue.line) : Json(nullptr)},
                    {"column", has_place ? Json(issue.column) : Json(nullptr)},
                    {"value", issue.value},
                    {"limit", issue.limit},
                    {"message", issue.message},
                    {"hint", issue.hint}});
  }
  return list;
}

namespace {

std::string_view words_of(design::AssumedFrom from) {
  if (from == design::AssumedFrom::measured) return "measured";
  return from == design::AssumedFrom::catalogue ? "catalogue" : "default";
}

}  // namespace

Json json_from_assumptions(std::span<const design::Assumption> assumed) {
  Json list = Json::array();
  for (const design::Assumption& one : assumed) {
    list.push_back({{"path", one.path},
                    {"name", one.name},
                    {"unit", one.unit},
                    {"low", one.low},
                    {"likely", one.likely},
                    {"high", one.high},
                    {"source", one.source},
                    {"certainty", catalogue::text_from_certainty(one.certainty)},
                    {"from", words_of(one.from)}});
  }
  return list;
}

Json json_from_cautions(std::span<const catalogue::Caution> cautions) {
  Json list = Json::array();
  for (const catalogue::Caution& caution : cautions) {
    list.push_back(
        {{"id", caution.id}, {"beside", caution.beside}, {"text", caution.text}, {"source", caution.source}});
  }
  return list;
}

}  // namespace houseleek::report
