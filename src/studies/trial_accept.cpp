// Fitted values into a description, as measured on this roof.
#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "catalogue/properties.hpp"
#include "design/edit_text.hpp"
#include "design/limits.hpp"
#include "studies/one_at_a_time_vary.hpp"
#include "studies/trial_fit.hpp"

namespace houseleek::studies {
namespace {

/// What the figure may be at least and at most, as the design's own reader has it.
NumberRule rule_of(std::string_view path) {
  const std::string_view key = path.substr(path.rfind('.') + 1);
  if (key == design::limits::gap_wind_frac.key) return design::limits::gap_wind_frac;
  if (key == design::limits::albedo.key) return design::limits::albedo;
  for (const catalogue::FoliageProperty& property : catalogue::foliage_properties()) {
    if (path.starts_with("recipe[") && property.rule.key == key) return property.rule;
  }
  for (const catalogue::MaterialProperty& property : catalogue::material_properties()) {
    if (property.rule.key == key) return property.rule;
  }
  expects(false, "a figure that can be fitted");
  return {};
}

struct Accepted {
  std::string path;
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
  std::string source;
};

/// As many digits as mean something; read back, so that what is compared later is what stands in the text.
double rounded(double value) { return std::stod(fmt::format("{:.4g}", value)); }

Accepted accepted_from(const report::FittedFigure& figure, const std::string& source) {
  const NumberRule rule = rule_of(figure.path);
  expects(figure.fitted.low && figure.fitted.high, "an interval of what is offered");
  Accepted accepted{figure.path, rounded(*figure.fitted.low), rounded(figure.fitted.value),
                    rounded(*figure.fitted.high), source};
  if (accepted.low < rule.least) {
    accepted.source += fmt::format(" (from {}, cut at the least it can be)", accepted.low);
    accepted.low = rule.least;
  }
  if (accepted.high > rule.most) {
    accepted.source += fmt::format(" (to {}, cut at the most it can be)", accepted.high);
    accepted.high = rule.most;
  }
  return accepted;
}

std::string toml_of(const Accepted& accepted) {
  return fmt::format("{{ low = {}, likely = {}, high = {}, source = {}, certainty = \"measured\" }}", accepted.low,
                     accepted.likely, accepted.high, design::toml_text_from(accepted.source));
}

Issue issue_at(const std::string& path, std::string message) {
  Issue issue;
  issue.code = IssueCode::inconsistent;
  issue.path = path;
  issue.message = std::move(message);
  issue.hint = "write the figure into the design by hand";
  return issue;
}

/// Everything that was assumed before is assumed still, and the accepted figures stand with their ranges.
bool is_as_wanted(const design::ValidDesign& before, const design::ValidDesign& after,
                  const std::vector<Accepted>& accepted) {
  const auto find = [&after](const std::string& path) {
    return std::find_if(after.assumed().begin(), after.assumed().end(),
                        [&path](const design::Assumption& one) { return one.path == path; });
  };
  for (const Accepted& one : accepted) {
    const auto found = find(one.path);
    if (found == after.assumed().end() || found->from != design::AssumedFrom::measured) return false;
    if (found->low != one.low || found->likely != one.likely || found->high != one.high) return false;
    if (found->source != one.source) return false;
  }
  for (const design::Assumption& one : before.assumed()) {
    const bool is_accepted =
        std::any_of(accepted.begin(), accepted.end(), [&one](const Accepted& a) { return a.path == one.path; });
    // A finish that is written out takes its other figure along as the owner's own.
    if (is_accepted || one.path.starts_with("roof.finish.")) continue;
    const auto found = find(one.path);
    if (found == after.assumed().end() || *found != one) return false;
  }
  return true;
}

}  // namespace

Result<std::string> with_fitted(const TrialFitInputs& inputs, const report::TrialFitAnswer& answer) {
  std::vector<Accepted> accepted;
  std::vector<PlacedFigure> figures;
  bool has_material = false;
  // One after the other, because two figures may want the same new table.
  std::string text = inputs.description.text;
  for (const report::FittedFigure& figure : answer.figures) {
    accepted.push_back(accepted_from(figure, answer.source));
    figures.push_back({figure.path, accepted.back().likely});
    has_material = has_material || figure.path.starts_with("material[");
    const Result<design::RawDesign> raw = design::parse_design(text, inputs.description.file_name);
    if (!raw) return Unexpected{raw.error()};
    const std::optional<design::TextChange> change =
        design::change_figure(raw.value(), *inputs.design, figure.path, toml_of(accepted.back()));
    if (!change) {
      return Unexpected{{issue_at(
          figure.path, fmt::format("{} is written in a way that cannot be changed in one piece", figure.path))}};
    }
    text = design::with_changes(text, {*change});
  }
  const Result<design::ValidDesign> after = design::read_design(text, inputs.description.file_name, inputs.catalogue);
  const Result<design::ValidDesign> wanted = read_varied(inputs.description, inputs.design, inputs.catalogue, figures);
  if (!wanted) return Unexpected{wanted.error()};
  const bool is_same = after && is_as_wanted(inputs.design, after.value(), accepted) &&
                       (has_material || *after.value() == *wanted.value());
  if (!is_same) {
    return Unexpected{
        {issue_at(answer.figures.front().path,
                  "the description with the values in it does not read as it should; nothing was changed")}};
  }
  return text;
}

}  // namespace houseleek::studies
