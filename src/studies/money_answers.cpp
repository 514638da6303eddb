// What it costs, what comes back, and whether a plain rival does more for its money.
#include "studies/money_answers.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "checks/weights.hpp"
#include "money/plain_sums.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using report::Figure;
using report::RoomFigures;

Figure of_one_year(double value) { return results::figure_without_range(value, std::string(report::one_year_only)); }

const RoomFigures& under(const report::RoomAnswer& house, CoverKind cover) {
  return house.covers[report::index_of(cover)];
}

double value_of(const Figure& figure) {
  expects(figure.value.has_value(), "a figure that every run has");
  return *figure.value;
}

/// Degree-hours that a cover takes away, to a unit of its outlay.
Figure less_per_outlay(const report::RoomAnswer& house, CoverKind cover, const Figure& outlay) {
  if (!outlay.value) return results::figure_missing(outlay.because);
  if (*outlay.value <= 0.0) return results::figure_missing("nothing is spent");
  const double less_k_h = value_of(under(house, CoverKind::bare).degree_hours_above_k_h) -
                          value_of(under(house, cover).degree_hours_above_k_h);
  return of_one_year(less_k_h / *outlay.value);
}

struct RivalPlace {
  std::string_view name;
  std::string_view words;
  std::string_view extent;
  CoverKind cover;
};

constexpr RivalPlace rival_places[] = {
    {"white", "White paint on the same squares", "same_squares", CoverKind::white_same},
    {"white", "White paint on the whole roof", "whole_roof", CoverKind::white_whole},
    {"net", "A raised net over the same squares", "same_squares", CoverKind::net_same},
    {"net", "A raised net over the whole roof", "whole_roof", CoverKind::net_whole},
    {"board", "A ballasted board on the same squares", "same_squares", CoverKind::board_same},
    {"board", "A ballasted board on the whole roof", "whole_roof", CoverKind::board_whole}};

money::Cost cost_of(const design::ValidDesign& design, std::string_view rival) {
  if (rival == "white") return money::cost_of_white_per_m2(design);
  if (rival == "net") return money::cost_of_net_per_m2(design);
  return money::cost_of_board_per_m2(design);
}

Figure mass_of(const design::ValidDesign& design, std::string_view rival) {
  if (rival == "net") return checks::figure_from_weight(checks::compute_net_weights(design).soaked_kg_per_m2);
  if (rival == "board") return checks::figure_from_weight(checks::compute_board_weights(design).soaked_kg_per_m2);
  return results::figure_missing("a coat of paint is not weighed");
}

std::vector<std::string> better_fields(const RoomFigures& rival, const RoomFigures& planted) {
  struct Field {
    std::string_view name;
    Figure RoomFigures::*figure;
  };
  // Of all these less is better.
  const Field fields[] = {{"operative_max_c", &RoomFigures::operative_max_c},
                          {"hours_above_limit", &RoomFigures::hours_above_limit},
                          {"hours_above_limit_with_fan", &RoomFigures::hours_above_limit_with_fan},
                          {"degree_hours_above_k_h", &RoomFigures::degree_hours_above_k_h},
                          {"heat_to_add_kwh", &RoomFigures::heat_to_add_kwh},
                          {"heat_to_remove_kwh", &RoomFigures::heat_to_remove_kwh}};
  std::vector<std::string> better;
  for (const Field& field : fields) {
    const std::optional<double>& here = (rival.*field.figure).value;
    const std::optional<double>& there = (planted.*field.figure).value;
    if (here && there && *here < *there) better.emplace_back(field.name);
  }
  return better;
}

std::string money_words(const Figure& figure, const std::string& currency) {
  return figure.value ? fmt::format("{:.0f} {}", *figure.value, currency) : "a price that is not known";
}

}  // namespace

report::MoneyAnswer answer_money(const design::ValidDesign& design, const report::RoomAnswer& house, double water_m3) {
  const money::PlantedOutlay planted = money::planted_outlay(design);
  const money::CashSaving saving = money::cash_saving(design);
  report::MoneyAnswer answer;
  answer.currency = design->prices.currency;
  answer.outlay = planted.outlay;
  answer.replacement_per_year = planted.replacement_per_year;
  answer.water_per_year = money::water_cost_per_year(design, water_m3);
  answer.cash_saving_per_year = saving.per_year;
  answer.cash_saving_statement = saving.statement;
  const RoomFigures& bare = under(house, CoverKind::bare);
  const RoomFigures& covered = under(house, CoverKind::planted);
  answer.comfort_kwh_per_year = of_one_year(value_of(bare.heat_to_remove_kwh) - value_of(covered.heat_to_remove_kwh));
  answer.heating_less_kwh_per_year = of_one_year(value_of(bare.heat_to_add_kwh) - value_of(covered.heat_to_add_kwh));
  answer.payback_why = saving.no_payback_because;
  for (const money::RecipeOutlay& row : planted.recipes) {
    answer.recipes.push_back({.name = design->recipes[static_cast<std::size_t>(row.recipe)].name,
                              .n_modules = row.n_modules,
                              .per_module = row.per_module,
                              .outlay = row.outlay,
                              .replacement_per_year = row.replacement_per_year});
  }
  answer.unpriced = planted.unpriced;
  answer.without_life = planted.without_life;
  return answer;
}

report::Figure planted_degree_hours_less_per_outlay(const report::RoomAnswer& house, const report::MoneyAnswer& money) {
  return less_per_outlay(house, CoverKind::planted, money.outlay);
}

std::vector<report::RivalAnswer> answer_rivals(const design::ValidDesign& design, const plan::Layout& layout,
                                               const report::RoomAnswer& house, const report::MoneyAnswer& money) {
  double roof_m2 = 0.0;
  double same_m2 = 0.0;
  for (const plan::RoomLayout& room : layout.rooms) {
    roof_m2 += room.area_m2;
    same_m2 += room.covered_m2;
  }
  const RoomFigures& planted = under(house, CoverKind::planted);
  const Figure planted_less = planted_degree_hours_less_per_outlay(house, money);
  std::vector<report::RivalAnswer> answers;
  for (const RivalPlace& place : rival_places) {
    const RoomFigures& figures = under(house, place.cover);
    report::RivalAnswer answer;
    answer.name = place.name;
    answer.extent = place.extent;
    answer.area_m2 = answer.extent == "whole_roof" ? roof_m2 : same_m2;
    const money::RivalOutlay cost = money::rival_outlay(cost_of(design, place.name), answer.area_m2);
    answer.outlay = cost.outlay;
    answer.replacement_per_year = cost.replacement_per_year;
    answer.mass_soaked_kg_per_m2 = mass_of(design, place.name);
    answer.degree_hours_less_per_outlay_k_h = less_per_outlay(house, place.cover, cost.outlay);
    answer.better_in = better_fields(figures, planted);
    const std::optional<double>& less = answer.degree_hours_less_per_outlay_k_h.value;
    answer.is_better_for_its_money = less && *less > 0.0 && planted_less.value && *less > *planted_less.value;
    answer.statement = fmt::format(
        "{}: {:.0f} K h above the limit (modules {:.0f}, bare {:.0f}), {:.0f} kWh of heat to add ({:.0f}, {:.0f}), for "
        "{} ({}).",
        place.words, value_of(figures.degree_hours_above_k_h), value_of(planted.degree_hours_above_k_h),
        value_of(under(house, CoverKind::bare).degree_hours_above_k_h), value_of(figures.heat_to_add_kwh),
        value_of(planted.heat_to_add_kwh), value_of(under(house, CoverKind::bare).heat_to_add_kwh),
        money_words(answer.outlay, money.currency), money_words(money.outlay, money.currency));
    answers.push_back(std::move(answer));
  }
  return answers;
}

std::vector<design::Assumption> assumed_costs(const design::ValidDesign& design) {
  const bool has_plants = std::any_of(design->recipes.begin(), design->recipes.end(),
                                      [](const design::Recipe& recipe) { return recipe.canopy.cover_frac > 0.0; });
  if (!has_plants) return {};
  const design::Default& cuttings = money::cuttings_per_m2;
  return {{.path = "money.cuttings_per_m2",
           .name = std::string(cuttings.words),
           .unit = "1/m2",
           .low = cuttings.low,
           .likely = cuttings.likely,
           .high = cuttings.high,
           .source = std::string(cuttings.source),
           .certainty = cuttings.certainty,
           .from = design::AssumedFrom::default_value}};
}

}  // namespace houseleek::studies
