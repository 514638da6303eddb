// `houseleek upkeep`: lives of parts from the logbook, what to replace and to look at when, storms, taking it all off.
#include "studies/upkeep.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/nearest_name.hpp"
#include "base/number_words.hpp"
#include "base/sha256.hpp"
#include "checks/cautions.hpp"
#include "checks/weights.hpp"
#include "studies/bill_answers.hpp"
#include "studies/design_parts.hpp"
#include "studies/logbook_day.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;
using results::figure_with_range;

/// Where nobody says how long something lasts.
constexpr double unknown_life_low_years = 0.5;
constexpr double unknown_life_high_years = 30.0;
/// An exact figure is no belief with a spread; how sure it is was not said.
constexpr double unsure_factor = 1.5;

constexpr std::string_view forecast_from =
    "prior and log together; 90 % of 4000 drawn futures, by whole parts, widened to hold the mean";

Figure replacements_figure(const upkeep::Replacements& one) {
  return figure_with_range(one.expected, std::min(one.low, one.expected), std::max(one.high, one.expected),
                           std::string(forecast_from));
}

Figure quantiles_figure(const stats::Quantiles& one, const std::string& from) {
  return figure_with_range(one.middle, one.low, one.high, from);
}

stats::LifePrior prior_of(const std::optional<catalogue::Spread>& life_years) {
  if (!life_years) {
    stats::LifePrior prior;
    prior.median_low_years = unknown_life_low_years;
    prior.median_high_years = unknown_life_high_years;
    return prior;
  }
  if (life_years->low < life_years->high) return upkeep::prior_from_catalogue(*life_years);
  catalogue::Spread wider = *life_years;
  wider.low = life_years->likely / unsure_factor;
  wider.high = life_years->likely * unsure_factor;
  return upkeep::prior_from_catalogue(wider);
}

/// Lives that are known alike are one, of more parts.
void add_life(std::vector<stats::PartLife>& lives, const stats::PartLife& life) {
  for (stats::PartLife& one : lives) {
    if (one.alive_at_years != life.alive_at_years || one.failed_by_years != life.failed_by_years) continue;
    one.n_parts += life.n_parts;
    return;
  }
  lives.push_back(life);
}

void add_in_use(std::vector<stats::PartsInUse>& in_use, const stats::PartsInUse& parts) {
  for (stats::PartsInUse& one : in_use) {
    if (one.age_years != parts.age_years) continue;
    one.n_parts += parts.n_parts;
    return;
  }
  in_use.push_back(parts);
}

std::string title_of(const std::string& part, const std::string& material) {
  return material.empty() ? part : fmt::format("{}, {}", part, material);
}

std::string hash_of(const store::Revision& revision, const std::vector<logbook::EventRecord>& records) {
  return "sha256:" +
         sha256_hex(fmt::format("{}:{}{}", revision.toml_text.size(), revision.toml_text, text_of_standing(records)));
}

std::vector<catalogue::Caution> cautions_of(const design::ValidDesign& design, const catalogue::Catalogue& catalogue) {
  std::vector<catalogue::Caution> cautions = checks::find_cautions(design, catalogue);
  std::erase_if(cautions, [](const catalogue::Caution& one) {
    return one.beside != "work" && one.beside != "upkeep" && one.beside != "roof" && one.beside != "wind";
  });
  return cautions;
}

/// 2026-12, 2027-01: each of the months that begin today is named by its middle.
std::vector<std::string> month_names(std::int64_t today) {
  const std::string day = text_from_day(today + 15);
  int year = std::stoi(day.substr(0, 4));
  int month = std::stoi(day.substr(5, 2));
  std::vector<std::string> names;
  for (std::size_t i = 0; i < upkeep_months; ++i) {
    names.push_back(fmt::format("{:04}-{:02}", year, month));
    if (++month > 12) {
      month = 1;
      ++year;
    }
  }
  return names;
}

report::PartUpkeep answer_of(const PartLives& lives) {
  report::PartUpkeep answer;
  answer.part = lives.part;
  answer.material = lives.material;
  answer.recipes = lives.recipes;
  answer.n_in_use = lives.n_in_use;
  answer.n_taken_out = lives.n_taken_out;
  answer.n_failures = lives.life.n_failures;
  answer.oldest_in_use_years =
      lives.n_in_use > 0.0 ? results::figure_without_range(lives.oldest_in_use_years, "counted from the logbook")
                           : results::figure_missing("none is in use");
  answer.is_too_few = lives.life.is_too_few;
  answer.is_prior_known = lives.is_prior_known;
  const std::string believed = lives.is_prior_known ? "as the catalogue or the design believes, 90 %"
                                                    : "nobody says how long it lasts: a very wide guess of ours, 90 %";
  const std::string shown = answer.is_too_few
                                ? believed
                                : fmt::format("measured on this roof, from {} and what was believed, 90 %",
                                              counted(answer.n_failures, "failure", "failures"));
  answer.prior_life_years = quantiles_figure(lives.life.prior_median_life_years, believed);
  answer.life_years = quantiles_figure(lives.life.median_life_years, shown);
  answer.shape = quantiles_figure(lives.life.shape, shown);
  answer.sentence = lives.life.sentence;
  answer.forecast_sentence = lives.life.forecast_sentence;
  for (const upkeep::Replacements& month : lives.life.months) answer.forecast.push_back(replacements_figure(month));
  answer.forecast_total = replacements_figure(lives.life.total);
  answer.curve = lives.life.curve;
  return answer;
}

void add_forecast(const std::vector<PartLives>& all, report::UpkeepAnswer& answer) {
  std::vector<upkeep::ServiceLifeAnswer> in_use;
  for (const PartLives& one : all) {
    if (one.n_in_use > 0.0) in_use.push_back(one.life);
  }
  if (in_use.empty()) {
    answer.forecast_statement = "Nothing is known to lie on the roof: log what was made, and when.";
    return;
  }
  double expected = 0.0;
  for (const upkeep::Replacements& month : upkeep::replacements_together(in_use, report::upkeep_confidence_frac)) {
    expected += month.expected;
    answer.forecast.push_back(replacements_figure(month));
  }
  const auto most = std::max_element(all.begin(), all.end(), [](const PartLives& a, const PartLives& b) {
    return a.life.total.expected < b.life.total.expected;
  });
  answer.forecast_statement =
      fmt::format("About {} parts to replace in {} months; most of them {} ({}).", two_digits(expected), upkeep_months,
                  title_of(most->part, most->material), two_digits(most->life.total.expected));
}

}  // namespace

upkeep::RoundFacts round_facts(const design::ValidDesign& design, const catalogue::Catalogue& catalogue) {
  upkeep::RoundFacts facts;
  std::set<std::string> succulents;
  std::set<std::string> invasive;
  facts.has_containers = !design->containers.empty();
  facts.parapet_height_mm = design->roof.parapet_height_mm;
  for (const design::Patch& patch : design->patches) {
    if (patch.placed == design::Placed::raised) facts.has_raised = true;
  }
  for (std::size_t i = 0; i < design->recipes.size(); ++i) {
    const design::Recipe& recipe = design->recipes[i];
    if (recipe.cover) facts.has_covers = true;
    if (recipe.net) facts.has_nets = true;
    for (const design::RecipeLayer& layer : recipe.layers) {
      const catalogue::Material& material = layer.layer.material;
      const auto& hazards = material.hazards;
      if (std::find(hazards.begin(), hazards.end(), catalogue::Hazard::fibres) != hazards.end()) {
        facts.has_mineral_core = true;
      }
      if (material.plastic_frac && material.plastic_frac->likely > 0.0) facts.has_plastic = true;
    }
    for (const design::RecipePlant& plant : recipe.plants) {
      const catalogue::Plant* known = catalogue::find_plant(catalogue, plant.name);
      if (known == nullptr) continue;
      if (known->group == "succulent") succulents.insert(known->name);
      if (!catalogue::invasive_listings(*known, design->site.country).empty()) invasive.insert(known->name);
    }
    const checks::ModuleWeights weights = checks::compute_weights(design, static_cast<int>(i), recipe.placed);
    const double module_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
    const double soaked_kg = weights.soaked_kg_per_m2.likely * module_m2;
    if (soaked_kg <= facts.soaked_kg) continue;
    facts.soaked_kg = soaked_kg;
    facts.dry_kg = weights.dry_kg_per_m2.likely * module_m2;
  }
  facts.succulents.assign(succulents.begin(), succulents.end());
  facts.invasive.assign(invasive.begin(), invasive.end());
  return facts;
}

upkeep::PartRecords part_records_of(const std::vector<logbook::EventRecord>& records, const design::Design& design) {
  std::vector<upkeep::RecipePart> recipe_parts;
  for (const DesignPart& part : parts_of_design(design)) recipe_parts.push_back(part.part);
  return upkeep::find_part_records(records, recipe_parts);
}

std::vector<PartLives> judge_part_lives(const upkeep::PartRecords& found, const design::Design& design,
                                        const catalogue::Catalogue& catalogue, std::int64_t now_utc_s,
                                        double least_failures) {
  const std::vector<DesignPart> design_parts = parts_of_design(design);
  std::vector<PartLives> all;
  std::vector<upkeep::ServiceLifeQuestion> questions;
  for (const upkeep::PartRecord& record : found.parts) {
    std::size_t at = 0;
    while (at < all.size() &&
           (all[at].part != record.part || folded_name(all[at].material) != folded_name(record.material))) {
      ++at;
    }
    if (at == all.size()) {
      PartLives lives;
      lives.part = record.part;
      lives.material = record.material;
      const std::optional<catalogue::Spread> life =
          believed_life(design_parts, catalogue, record.part, record.material);
      lives.is_prior_known = life.has_value();
      for (const DesignPart& part : design_parts) {
        // A design does not say what ties and spacers are made of.
        const bool is_said = !part.part.material.empty();
        if (part.part.part != record.part) continue;
        if (is_said && folded_name(part.part.material) != folded_name(record.material)) continue;
        lives.life_path = part.life_path;
      }
      all.push_back(std::move(lives));
      upkeep::ServiceLifeQuestion question;
      question.part = title_of(record.part, record.material);
      question.prior = prior_of(life);
      question.n_months = upkeep_months;
      question.confidence_frac = report::upkeep_confidence_frac;
      question.seed = design.climate.seed;
      questions.push_back(std::move(question));
    }
    PartLives& lives = all[at];
    if (!record.recipe.empty() &&
        std::find(lives.recipes.begin(), lives.recipes.end(), record.recipe) == lives.recipes.end()) {
      lives.recipes.push_back(record.recipe);
    }
    add_life(questions[at].lives, upkeep::life_of(record));
    if (upkeep::is_in_use(record)) {
      const double age_years = std::max(0.0, upkeep::years_between(record.put_in_utc_s, now_utc_s));
      add_in_use(questions[at].in_use, {age_years, record.n_parts});
      lives.n_in_use += record.n_parts;
      lives.oldest_in_use_years = std::max(lives.oldest_in_use_years, age_years);
    }
    if (record.taken_out_utc_s) lives.n_taken_out += record.n_parts;
  }
  std::vector<PartLives> judged;
  for (std::size_t i = 0; i < all.size(); ++i) {
    double n_failures = 0.0;
    for (const stats::PartLife& life : questions[i].lives) {
      if (std::isfinite(life.failed_by_years)) n_failures += life.n_parts;
    }
    if (n_failures < least_failures) continue;
    all[i].life = upkeep::judge_service_life(questions[i]);
    judged.push_back(std::move(all[i]));
  }
  all = std::move(judged);
  std::stable_sort(all.begin(), all.end(), [](const PartLives& a, const PartLives& b) {
    if (a.life.n_failures != b.life.n_failures) return a.life.n_failures > b.life.n_failures;
    return a.life.total.expected > b.life.total.expected;
  });
  return all;
}

Result<report::UpkeepAnswer> answer_upkeep(const std::vector<logbook::EventRecord>& records,
                                           const std::vector<logbook::LoggerColumn>& loggers,
                                           const design::ValidDesign& design, const store::Revision& revision,
                                           const catalogue::Catalogue& catalogue, const UpkeepRequest& request) {
  const std::string& zone = design->site.time_zone;
  const Result<LogbookDay> day = logbook_day(request.on, zone, request.now_utc_s);
  if (!day) return Unexpected{day.error()};
  const std::int64_t today = day.value().today;
  const std::int64_t end_utc_s = day.value().end_utc_s;
  const std::vector<logbook::EventRecord> seen = events_until(records, end_utc_s);
  const upkeep::PartRecords found = part_records_of(seen, *design);
  const std::vector<PartLives> lives = judge_part_lives(found, *design, catalogue, end_utc_s);

  report::UpkeepAnswer answer;
  answer.project = request.project;
  answer.design_name = design->name;
  answer.is_invented = design->is_invented;
  answer.engine_version = request.engine_version;
  answer.revision = revision.number;
  answer.seed = design->climate.seed;
  answer.input_hash = hash_of(revision, seen);
  answer.on = day.value().on;
  answer.cautions = cautions_of(design, catalogue);
  answer.n_events = found.n_events;
  const auto day_of = [&](std::int64_t utc_s) {
    CivilMoment moment = moment_at(utc_s, zone);
    moment.is_time_known = false;
    return text_from_moment(moment);
  };
  if (found.first_utc_s) answer.first_day = day_of(*found.first_utc_s);
  if (found.last_utc_s) answer.last_day = day_of(*found.last_utc_s);
  answer.n_modules = found.n_modules;
  answer.left_out = found.left_out;
  for (const PartLives& one : lives) answer.parts.push_back(answer_of(one));
  answer.months = month_names(today);
  add_forecast(lives, answer);
  answer.storms = upkeep::find_storms(seen, found, end_utc_s);
  answer.looks = upkeep::looks_due(seen, today);
  answer.bills = answer_bills(seen, loggers, *design);
  const upkeep::RoundFacts facts = round_facts(design, catalogue);
  answer.before_storm = {request.shows_before_storm,
                         request.shows_before_storm ? "asked for" : "shown with --before-storm",
                         upkeep::steps_before_storm(facts)};
  const bool is_after = answer.storms.latest_within_days.has_value();
  answer.after_storm = {request.shows_after_storm || is_after,
                        is_after                    ? "a storm is logged on " + *answer.storms.latest_within_days
                        : request.shows_after_storm ? "asked for"
                                                    : "shown with --after-storm, and for 14 days after a storm",
                        upkeep::steps_after_storm(facts)};
  answer.is_taking_off_shown = request.shows_taking_off;
  answer.taking_off = upkeep::steps_for_taking_off(facts);
  return answer;
}

}  // namespace houseleek::studies
