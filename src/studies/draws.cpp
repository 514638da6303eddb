// What prices and lives that are not known exactly leave open: outlay, replacement and water in many draws, with the
// year of weather drawn too.
#include "studies/draws.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "money/cash_flow.hpp"
#include "money/draws.hpp"
#include "plan/assumed_interval.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using report::Figure;

/// What is asked, with what is the same in every draw.
struct Inputs {
  const design::ValidDesign& design;
  const plan::Layout& layout;
  std::span<const YearAnswer> years;
  int n_draws = 0;
  money::Terms terms;
  money::Alternative modules;
};

/// Figures of one thing in every draw.
struct Samples {
  std::vector<double> outlay;
  std::vector<double> replacement_per_year;
  std::vector<double> less_k_h;  // degree-hours taken away

  void add(const money::DrawnCost& cost) {
    outlay.push_back(cost.outlay);
    replacement_per_year.push_back(cost.replacement_per_year);
  }
};

struct Draws {
  int n = 0;
  std::uint64_t seed = 0;
  std::string prices;      // words for what was drawn: prices and lives
  std::string with_years;  // and years
};

money::Draw draw_at(const Draws& draws, int i) { return {.seed = draws.seed, .number = static_cast<std::uint32_t>(i)}; }

Draws make_draws(const Inputs& inputs) {
  Draws draws;
  draws.n = inputs.n_draws;
  draws.seed = inputs.design->climate.seed;
  draws.prices = fmt::format("{} draws from assumed spreads of prices and lives", draws.n);
  draws.with_years = inputs.years.size() == 1
                         ? fmt::format("{}; {}", draws.prices, report::one_year_only)
                         : fmt::format("{} and of {} made years", draws.prices, inputs.years.size());
  return draws;
}

/// Every year as often as any other, or once more.
const YearAnswer& year_of(const Inputs& inputs, int draw) {
  return inputs.years[static_cast<std::size_t>(draw) % inputs.years.size()];
}

double degree_hours_k_h(const YearAnswer& year, CoverKind cover) {
  const Figure& figure = year.house.covers[report::index_of(cover)].degree_hours_above_k_h;
  expects(figure.value.has_value(), "a figure that every run has");
  return *figure.value;
}

Figure unpriced_figure(const std::vector<std::string>& unpriced) {
  return results::figure_missing(
      fmt::format("no price is known of {}: add it under [[prices.item]]", fmt::join(unpriced, ", ")));
}

money::FigureOf figure_in(const Draws& draws, int i) {
  return [draw = draw_at(draws, i)](const money::Factor& factor) { return money::drawn(factor, draw); };
}

/// Of every lot, what stock has of it taken from there; nothing where a price is missing.
std::vector<std::optional<Samples>> samples_of(const money::Alternative& alternative, const money::Terms& terms,
                                               const Draws& draws) {
  money::Alternative priced = alternative;
  std::vector<std::optional<Samples>> samples(alternative.lots.size());
  for (std::size_t lot = 0; lot < samples.size(); ++lot) {
    if (alternative.lots[lot].per_unit.unpriced.empty()) {
      samples[lot].emplace();
    } else {
      priced.lots[lot].per_unit = {};
    }
  }
  for (int i = 0; i < draws.n; ++i) {
    const std::vector<double> outlays = money::outlay_of_lots(priced, terms, figure_in(draws, i));
    for (std::size_t lot = 0; lot < samples.size(); ++lot) {
      if (!samples[lot]) continue;
      const money::DrawnCost one = money::draw_cost(priced.lots[lot].per_unit, draw_at(draws, i));
      samples[lot]->add(
          {.outlay = outlays[lot], .replacement_per_year = priced.lots[lot].n_units * one.replacement_per_year});
    }
  }
  return samples;
}

/// Of one cost at the shop's prices.
std::vector<double> shop_prices(const money::Cost& cost, const Draws& draws) {
  std::vector<double> sample;
  for (int i = 0; i < draws.n; ++i) sample.push_back(money::draw_cost(cost, draw_at(draws, i)).outlay);
  return sample;
}

void add(std::vector<double>& sums, const std::vector<double>& more) {
  sums.resize(more.size(), 0.0);
  for (std::size_t i = 0; i < more.size(); ++i) sums[i] += more[i];
}

std::vector<double> ratios(const std::vector<double>& above, const std::vector<double>& below) {
  std::vector<double> values;
  for (std::size_t i = 0; i < above.size(); ++i) values.push_back(above[i] / below[i]);
  return values;
}

bool is_spent_in_every_draw(const Samples& samples) {
  return std::all_of(samples.outlay.begin(), samples.outlay.end(), [](double outlay) { return outlay > 0.0; });
}

Figure less_per_outlay(const Samples& samples, const Draws& draws) {
  if (!is_spent_in_every_draw(samples)) return results::figure_missing("nothing is spent");
  return figure_of_sample(ratios(samples.less_k_h, samples.outlay), draws.with_years);
}

void add_less(const Inputs& inputs, CoverKind cover, Samples& samples) {
  for (int i = 0; i < inputs.n_draws; ++i) {
    const YearAnswer& year = year_of(inputs, i);
    samples.less_k_h.push_back(degree_hours_k_h(year, CoverKind::bare) - degree_hours_k_h(year, cover));
  }
}

/// The modules of all patches together, and of each recipe; fills their figures.
std::optional<Samples> draw_modules(const Inputs& inputs, const Draws& draws, MoneyDraws& drawn) {
  const std::vector<std::optional<Samples>> of_lots = samples_of(inputs.modules, inputs.terms, draws);
  std::vector<std::string> unpriced;
  Samples all;
  add(all.outlay, std::vector<double>(static_cast<std::size_t>(draws.n), 0.0));
  add(all.replacement_per_year, std::vector<double>(static_cast<std::size_t>(draws.n), 0.0));
  for (int recipe = 0; recipe < static_cast<int>(inputs.design->recipes.size()); ++recipe) {
    std::vector<std::string> unpriced_here;
    Samples sums;
    std::optional<DrawnRecipe> row;
    for (std::size_t lot = 0; lot < of_lots.size(); ++lot) {
      const money::Lot& patch = inputs.modules.lots[lot];
      if (patch.recipe != recipe) continue;
      const bool is_first = !row;
      if (is_first) row = DrawnRecipe{.recipe = recipe, .per_module = {}, .outlay = {}, .replacement_per_year = {}};
      const std::vector<std::string>& missing = patch.per_unit.unpriced;
      unpriced_here.insert(unpriced_here.end(), missing.begin(), missing.end());
      const std::optional<Samples>& modules = of_lots[lot];
      if (is_first) {
        row->per_module =
            modules ? figure_of_sample(shop_prices(patch.per_unit, draws), draws.prices) : unpriced_figure(missing);
      }
      if (!modules) continue;
      add(sums.outlay, modules->outlay);
      add(sums.replacement_per_year, modules->replacement_per_year);
    }
    if (!row) continue;
    if (unpriced_here.empty()) {
      add(all.outlay, sums.outlay);
      add(all.replacement_per_year, sums.replacement_per_year);
      row->outlay = figure_of_sample(sums.outlay, draws.prices);
      row->replacement_per_year = figure_of_sample(sums.replacement_per_year, draws.prices);
    } else {
      unpriced_here = money::once_each(unpriced_here);
      row->outlay = unpriced_figure(unpriced_here);
      row->replacement_per_year = unpriced_figure(unpriced_here);
      unpriced.insert(unpriced.end(), unpriced_here.begin(), unpriced_here.end());
    }
    drawn.recipes.push_back(std::move(*row));
  }
  if (!unpriced.empty()) {
    drawn.outlay = unpriced_figure(money::once_each(unpriced));
    drawn.replacement_per_year = drawn.outlay;
    drawn.degree_hours_less_per_outlay_k_h = drawn.outlay;
    return std::nullopt;
  }
  drawn.outlay = figure_of_sample(all.outlay, draws.prices);
  drawn.replacement_per_year = figure_of_sample(all.replacement_per_year, draws.prices);
  add_less(inputs, CoverKind::planted, all);
  drawn.degree_hours_less_per_outlay_k_h = less_per_outlay(all, draws);
  return all;
}

Figure draw_water(const Inputs& inputs, const Draws& draws) {
  const money::Factor price{"tariff.water_per_m3", plan::interval_from(inputs.design->prices.tariff.water_per_m3)};
  std::vector<double> sample;
  for (int i = 0; i < draws.n; ++i) {
    sample.push_back(year_of(inputs, i).watering_m3 * money::drawn(price, draw_at(draws, i)));
  }
  return figure_of_sample(std::move(sample), draws.with_years);
}

/// Takes more degree-hours away to a unit of money than the modules, draw against the same draw.
report::DrawCount count_better(const Samples& rival, const Samples& modules) {
  report::DrawCount count{.n_draws = 0, .n_all = static_cast<int>(rival.outlay.size())};
  for (std::size_t i = 0; i < rival.outlay.size(); ++i) {
    const double here = rival.less_k_h[i] / rival.outlay[i];
    const double there = modules.less_k_h[i] / modules.outlay[i];
    if (here > 0.0 && here > there) ++count.n_draws;
  }
  return count;
}

DrawnRival draw_rival(const Inputs& inputs, const Draws& draws, const RivalPlace& place,
                      const std::optional<Samples>& modules) {
  DrawnRival rival;
  for (const plan::RoomLayout& room : inputs.layout.rooms) {
    rival.area_m2 += place.extent == "whole_roof" ? room.area_m2 : room.covered_m2;
  }
  const money::Alternative alternative = rival_of(inputs.design, place.name, rival.area_m2);
  std::optional<Samples> samples = samples_of(alternative, inputs.terms, draws).front();
  if (!samples) {
    rival.outlay = unpriced_figure(alternative.lots.front().per_unit.unpriced);
    rival.replacement_per_year = rival.outlay;
    rival.degree_hours_less_per_outlay_k_h = rival.outlay;
    return rival;
  }
  add_less(inputs, place.cover, *samples);
  rival.outlay = figure_of_sample(samples->outlay, draws.prices);
  rival.replacement_per_year = figure_of_sample(samples->replacement_per_year, draws.prices);
  rival.degree_hours_less_per_outlay_k_h = less_per_outlay(*samples, draws);
  if (modules && is_spent_in_every_draw(*modules) && is_spent_in_every_draw(*samples)) {
    rival.better_for_its_money = count_better(*samples, *modules);
  }
  return rival;
}

}  // namespace

money::Alternative rival_of(const design::ValidDesign& design, std::string_view name, double area_m2) {
  if (name == "white") return money::white_of(design, area_m2);
  if (name == "net") return money::net_of(design, area_m2);
  return money::board_of(design, area_m2);
}

MoneyDraws draw_money(const MoneyDrawInputs& asked) {
  expects(asked.n_draws > 0 && !asked.years.empty(), "draws and years");
  const Inputs inputs{asked.design,
                      asked.layout,
                      asked.years,
                      asked.n_draws,
                      money::terms_of(asked.design),
                      money::modules_of(asked.design)};
  const Draws draws = make_draws(inputs);
  MoneyDraws drawn;
  drawn.n_draws = inputs.n_draws;
  const std::optional<Samples> modules = draw_modules(inputs, draws, drawn);
  drawn.water_per_year = draw_water(inputs, draws);
  for (std::size_t i = 0; i < rival_places.size(); ++i) {
    drawn.rivals[i] = draw_rival(inputs, draws, rival_places[i], modules);
  }
  return drawn;
}

}  // namespace houseleek::studies
