// `houseleek trial plan`: how many modules and days a wanted difference takes, and which side goes where.
#include "studies/trial_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/contract.hpp"
#include "base/nearest_name.hpp"
#include "design/edit_text.hpp"
#include "studies/trial_wish.hpp"
#include "trials/plan_words.hpp"

namespace houseleek::studies {
namespace {

using design::toml_text_from;

/// The plan's words speak of squares and sides by path; in the design they stand below [[trial]].
Issues below_trial(Issues issues, std::size_t trial) {
  for (Issue& issue : issues) {
    const std::string key = issue.path == "sides" ? "side" : issue.path == "squares" ? "place" : issue.path;
    issue.path = fmt::format("trial[{}].{}", trial, key);
    if (issue.path.ends_with(".place") && issue.hint.empty()) issue.hint = "add tables [[trial.place]]";
  }
  return issues;
}

Issue issue_at_places(std::size_t trial, const design::RawDesign& raw, std::string message, std::string hint) {
  Issue issue;
  issue.code = IssueCode::inconsistent;
  issue.path = fmt::format("trial[{}].place", trial);
  issue.file = raw.file_name;
  const TomlNode& table = find_member(raw.root, "trial")->items[trial];
  const TomlNode* places = find_member(table, "place");
  const TomlNode& at = places == nullptr || places->items.empty() ? table : places->items.front();
  issue.line = at.begin.line;
  issue.column = at.begin.column;
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

/// Which side stands where, as the design has it.
std::vector<trials::Assignment> given_out(const design::Trial& trial) {
  std::vector<trials::Assignment> assignments;
  for (const design::TrialPlace& place : trial.places) {
    if (!place.side) continue;
    assignments.push_back({place.name, trial.sides[static_cast<std::size_t>(*place.side)].name, place.block,
                           place.second_block, place.row, place.column});
  }
  return assignments;
}

std::size_t fewest_a_side(const design::Trial& trial) {
  std::vector<std::size_t> counts(trial.sides.size(), 0);
  for (const design::TrialPlace& place : trial.places) {
    if (place.side) ++counts[static_cast<std::size_t>(*place.side)];
  }
  return *std::min_element(counts.begin(), counts.end());
}

std::string tables_of_plan(const design::Trial& trial, const std::vector<trials::Assignment>& assignments) {
  std::string text;
  for (const design::TrialPlace& place : trial.places) {
    text += fmt::format("[[trial.place]]\nname = {}\n", toml_text_from(place.name));
    const auto given = std::find_if(assignments.begin(), assignments.end(),
                                    [&place](const trials::Assignment& one) { return one.square == place.name; });
    if (given == assignments.end()) continue;
    text += fmt::format("side = {}\n", toml_text_from(given->side));
    if (!given->block.empty()) text += fmt::format("block = {}\n", toml_text_from(given->block));
    if (!given->second_block.empty()) text += fmt::format("second_block = {}\n", toml_text_from(given->second_block));
  }
  return text;
}

/// The description with a side and a block in each place that got one.
std::string with_assignments(const design::RawDesign& raw, std::size_t trial_index,
                             const std::vector<trials::Assignment>& assignments) {
  const TomlNode& table = find_member(raw.root, "trial")->items[trial_index];
  std::vector<design::TextChange> changes;
  for (const TomlNode& place : find_member(table, "place")->items) {
    const std::string name = find_member(place, "name")->text;
    const auto given = std::find_if(assignments.begin(), assignments.end(),
                                    [&name](const trials::Assignment& one) { return one.square == name; });
    if (given == assignments.end()) continue;
    const auto add = [&](std::string_view key, const std::string& text) {
      if (!text.empty()) changes.push_back(design::change_key(raw, place, key, toml_text_from(text)));
    };
    add("side", given->side);
    add("block", given->block);
    add("second_block", given->second_block);
  }
  return design::with_changes(raw.text, std::move(changes));
}

Result<PlannedTrial> plan_found(const design::RawDesign& raw, const design::ValidDesign& design, const NamedText& file,
                                std::size_t index, std::size_t modules_a_side) {
  const design::Trial& trial = design->trials[index];
  const bool was_given_out = std::any_of(trial.places.begin(), trial.places.end(),
                                         [](const design::TrialPlace& place) { return place.side.has_value(); });
  if (was_given_out && fewest_a_side(trial) == 0) {
    return Unexpected{{issue_at_places(index, raw, "some places have a side, but not every side has a place",
                                       "give every side a place, or none and let the lot decide")}};
  }
  PlannedTrial planned;
  report::TrialPlanAnswer& answer = planned.answer;
  answer.head = head_of(file, *design, trial);
  answer.wish = wish_from(trial);
  answer.wish.modules_a_side = was_given_out ? 0 : modules_a_side;
  // Blocks as they were given out do not bind the sizes that are looked at.
  trials::TrialWish wish = answer.wish;
  if (was_given_out && wish.layout == trials::Layout::blocks) {
    for (trials::TrialSquare& square : wish.squares) square.block.clear();
  }
  Result<trials::TrialPlan> plan = trials::plan_trial(wish);
  if (!plan) {
    Issues issues = below_trial(plan.error(), index);
    for (Issue& issue : issues) {
      const Issue place = issue_at_places(index, raw, "", "");
      issue.file = place.file;
      issue.line = place.line;
      issue.column = place.column;
    }
    return Unexpected{std::move(issues)};
  }
  answer.plan = std::move(plan).value();
  answer.was_given_out = was_given_out;
  answer.chosen = trials::chosen_size(wish, answer.plan);
  if (was_given_out) {
    answer.plan.assignments = given_out(trial);
    const std::size_t n_modules = fewest_a_side(trial);
    const auto size = std::find_if(answer.plan.sizes.begin(), answer.plan.sizes.end(),
                                   [n_modules](const trials::TrialSize& one) { return one.n_modules == n_modules; });
    const int days = size == answer.plan.sizes.end() ? trial.most_days : size->days;
    const bool has_days = trial.first_day && trial.last_day;
    answer.chosen = trials::size_of_trial(answer.wish, n_modules,
                                          has_days ? static_cast<int>(*trial.last_day - *trial.first_day) + 1 : days);
    answer.plan.household = trials::household_sentences(answer.wish, answer.plan, answer.chosen);
    answer.plan.adviser = trials::adviser_sentences(answer.wish, answer.plan, answer.chosen);
  }
  answer.toml_text = tables_of_plan(trial, answer.plan.assignments);
  planned.design_text = was_given_out ? raw.text : with_assignments(raw, index, answer.plan.assignments);
  return planned;
}

/// What was said on the command line stands in no file.
Issues without_places_behind(Issues issues, std::string_view text) {
  const auto n_lines = std::count(text.begin(), text.end(), '\n') + 1;
  for (Issue& issue : issues) {
    if (issue.line <= n_lines) continue;
    issue.file.clear();
    issue.line = 0;
    issue.column = 0;
  }
  return issues;
}

}  // namespace

std::string tables_from(const design::Design& design, const TrialWords& words) {
  std::string text = fmt::format("[[trial]]\nname = {}\n", toml_text_from(words.name));
  if (!words.measure.empty()) text += fmt::format("measure = {}\n", toml_text_from(words.measure));
  if (words.is_by_loggers) text += "readings = \"loggers\"\n";
  text += fmt::format("wanted_difference = {}\n", words.wanted_difference);
  for (const std::string& side : words.sides) {
    text += fmt::format("[[trial.side]]\nname = {}\n", toml_text_from(side));
    if (folded_name(side) == "bare") text += "recipe = \"bare\"\n";
    for (const design::Recipe& recipe : design.recipes) {
      if (folded_name(recipe.name) == folded_name(side) && folded_name(side) != "bare") {
        text += fmt::format("recipe = {}\n", toml_text_from(recipe.name));
      }
    }
  }
  for (const std::string& place : words.places) {
    text += fmt::format("[[trial.place]]\nname = {}\n", toml_text_from(place));
  }
  return text;
}

Result<PlannedTrial> plan_trial(const NamedText& file, const catalogue::Catalogue& catalogue,
                                const PlanRequest& request) {
  const TrialWords* words = request.words;
  Result<design::RawDesign> raw = design::parse_design(file.text, file.name);
  if (!raw) return Unexpected{raw.error()};
  Result<design::ValidDesign> design = design::validate_design(raw.value(), catalogue);
  if (!design) return Unexpected{design.error()};
  std::string added;
  if (words != nullptr) {
    added = tables_from(*design.value(), *words);
    const std::string text = design::with_changes(raw.value().text, {design::append_tables(raw.value(), added)});
    raw = design::parse_design(text, file.name);
    expects(raw.has_value(), "tables that are well-formed TOML");
    design = design::validate_design(raw.value(), catalogue);
    if (!design) return Unexpected{without_places_behind(design.error(), file.text)};
  }
  const Result<std::size_t> index = find_trial(*design.value(), words != nullptr ? words->name : request.trial);
  if (!index) return Unexpected{index.error()};
  Result<PlannedTrial> planned = plan_found(raw.value(), design.value(), file, index.value(), request.modules_a_side);
  if (planned && words != nullptr) {
    PlannedTrial with_head = std::move(planned).value();
    const std::size_t places = added.find("[[trial.place]]");
    with_head.answer.toml_text = added.substr(0, places) + with_head.answer.toml_text;
    return with_head;
  }
  return planned;
}

}  // namespace houseleek::studies
