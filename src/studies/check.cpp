// `houseleek check`: is the description complete and consistent, what is assumed, which cautions apply.
#include "studies/check.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/issue_text.hpp"
#include "checks/cautions.hpp"
#include "design/parse.hpp"
#include "studies/assumptions.hpp"

namespace houseleek::studies {
namespace {

constexpr std::size_t text_width = 78;  // inside a terminal of 80

double covered_m2(const design::Design& design) {
  double sum_m2 = 0.0;
  for (const design::ModulePlace& place : design.modules) {
    sum_m2 += (place.rectangle.right_m - place.rectangle.left_m) * (place.rectangle.top_m - place.rectangle.bottom_m);
  }
  return sum_m2;
}

/// What of the engineer's figure is there, and what keeps a verdict away.
std::string load_line(const std::optional<design::AllowableLoad>& load) {
  if (!load || !load->load_kn_per_m2) return "no figure given: weights only, no verdict";
  std::string line = fmt::format("{} kN/m2", *load->load_kn_per_m2);
  if (!load->who.empty()) line += ", written down by " + load->who;
  if (!load->when.empty()) line += " on " + load->when;
  std::string missing;
  if (load->who.empty()) missing += "who said so, ";
  if (load->when.empty()) missing += "when, ";
  if (load->includes.empty()) missing += "what it includes, ";
  if (!missing.empty()) line += fmt::format("; not said: {}so no verdict", missing);
  return line;
}

struct AssumedGroup {
  const design::Assumption* first = nullptr;
  int n_more = 0;
};

/// Defaults only; the same default in several rooms or recipes is one line.
std::vector<AssumedGroup> grouped_defaults(const std::vector<design::Assumption>& assumed) {
  std::vector<AssumedGroup> groups;
  for (const design::Assumption& one : assumed) {
    if (one.from != design::AssumedFrom::default_value) continue;
    const auto same = [&one](const AssumedGroup& group) {
      return without_indices(group.first->path) == without_indices(one.path) && group.first->likely == one.likely;
    };
    const auto found = std::find_if(groups.begin(), groups.end(), same);
    if (found == groups.end()) {
      groups.push_back({&one, 0});
    } else {
      ++found->n_more;
    }
  }
  return groups;
}

/// Broken at blanks; every line after the first is set in.
std::string wrapped(std::string_view paragraph, std::string_view first_indent, std::string_view indent) {
  std::string text(first_indent);
  std::size_t width = first_indent.size();
  bool is_line_empty = true;
  for (std::size_t at = 0; at < paragraph.size();) {
    const std::size_t blank = std::min(paragraph.find(' ', at), paragraph.size());
    const std::string_view word = paragraph.substr(at, blank - at);
    if (!is_line_empty && width + 1 + word.size() > text_width) {
      text += "\n";
      text += indent;
      width = indent.size();
      is_line_empty = true;
    }
    if (!is_line_empty) text += " ";
    text += word;
    width += word.size() + (is_line_empty ? 0 : 1);
    is_line_empty = false;
    at = blank + 1;
  }
  return text + "\n";
}

std::string assumed_text(const std::vector<design::Assumption>& assumed) {
  std::string text = "Assumed, because the description does not say (low, likely, high):\n";
  std::size_t n_catalogue = 0;
  for (const design::Assumption& one : assumed) n_catalogue += one.from == design::AssumedFrom::catalogue ? 1 : 0;
  for (const AssumedGroup& group : grouped_defaults(assumed)) {
    const design::Assumption& one = *group.first;
    const std::string more = group.n_more > 0 ? fmt::format(" (and {} more)", group.n_more) : "";
    text += fmt::format("  {}{}\n", one.path, more);
    text += wrapped(fmt::format("{:.4g}, {:.4g}, {:.4g}{}{}  {}", one.low, one.likely, one.high,
                                one.unit.empty() ? "" : " ", one.unit, one.name),
                    "      ", "        ");
  }
  for (const design::Assumption& one : assumed) {
    if (one.from != design::AssumedFrom::measured) continue;
    text += fmt::format("  {}: measured on this roof\n", one.path);
    text += wrapped(fmt::format("{:.4g}, {:.4g}, {:.4g}{}{}  {}; {}", one.low, one.likely, one.high,
                                one.unit.empty() ? "" : " ", one.unit, one.name, one.source),
                    "      ", "        ");
  }
  text += fmt::format("  {} figures more come from the catalogue; --json lists all with their sources.\n", n_catalogue);
  return text;
}

std::string valid_text(const design::ValidDesign& design, std::string_view file_name, std::string_view toml_text,
                       const std::vector<catalogue::Caution>& cautions) {
  std::string text = fmt::format("{}: the description is complete and consistent.\n", file_name);
  const std::string weather =
      design->climate.file ? fmt::format("the file \"{}\", which is read by study, not here", *design->climate.file)
                           : "made from twelve monthly normals";
  text += fmt::format("  roof     {:.1f} m2, {} layers, {} rooms below\n", geometry::area_m2(design->roof.outline),
                      design->roof.deck.size(), design->rooms.size());
  text += fmt::format("  modules  {} on {:.1f} m2; recipes: {}\n", design->modules.size(), covered_m2(*design),
                      design->recipes.size());
  text += fmt::format("  weather  {}\n", weather);
  text += wrapped(load_line(design->roof.allowable_load), "  load     ", "           ");
  if (!design.warnings().empty()) {
    text += '\n';
    text += text_from_issues(design.warnings(), toml_text);
  }
  text += '\n';
  text += assumed_text(all_assumptions(design));
  if (!cautions.empty()) text += "\nCautions:\n";
  for (const catalogue::Caution& caution : cautions) text += wrapped(caution.text, "  - ", "    ");
  return text;
}

report::Json summary_json(const design::Design& design) {
  return {{"name", design.name},
          {"roof_m2", geometry::area_m2(design.roof.outline)},
          {"covered_m2", covered_m2(design)},
          {"n_modules", design.modules.size()},
          {"n_rooms", design.rooms.size()},
          {"n_recipes", design.recipes.size()},
          {"weather", design.climate.file ? "file" : "normals"}};
}

}  // namespace

CheckAnswer check_design(std::string_view toml_text, std::string_view file_name,
                         const catalogue::Catalogue& catalogue) {
  const Result<design::ValidDesign> read = design::read_design(toml_text, file_name, catalogue);
  CheckAnswer answer;
  answer.is_valid = read.has_value();
  report::Json document = {{"answer", "check"}, {"is_valid", answer.is_valid}, {"file", file_name}};
  if (!read) {
    answer.text = text_from_issues(read.error(), toml_text);
    document["issues"] = report::json_from_issues(read.error());
    document["design"] = nullptr;
    document["assumed"] = report::Json::array();
    document["cautions"] = report::Json::array();
  } else {
    const design::ValidDesign& design = read.value();
    const std::vector<catalogue::Caution> cautions = checks::find_cautions(design, catalogue);
    answer.text = valid_text(design, file_name, toml_text, cautions);
    document["issues"] = report::json_from_issues(design.warnings());
    document["design"] = summary_json(*design);
    document["assumed"] = report::json_from_assumptions(all_assumptions(design));
    document["cautions"] = report::json_from_cautions(cautions);
  }
  answer.document = std::move(document);
  return answer;
}

}  // namespace houseleek::studies
