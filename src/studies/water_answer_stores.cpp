// Today's stores in figures and sentences, and the round that they ask for.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/civil_time.hpp"
#include "base/number_words.hpp"
#include "planting/crop_days.hpp"
#include "planting/soil_water.hpp"
#include "report/words.hpp"
#include "results/interval.hpp"
#include "stats/quantile.hpp"
#include "stats/split_triangular.hpp"
#include "studies/water_answers.hpp"
#include "studies/water_parts.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;
using report::StoreNow;

// Common practice, no source: while roots are short, a module is kept from drying further than this.
constexpr double young_wants_below_frac = 0.6;
constexpr double least_shown_frac = 0.1;
constexpr double most_shown_frac = 0.9;
constexpr int shown_back = 30;  // evenings of the chart
constexpr int shown_ahead = 21;
// A lone pot over one in a field: [allen1998] chapter 10 lets small stands have up to twice a field's; ours.
constexpr results::Interval stand_factor = {0.8, 1.2, 1.8};

std::string form_words(design::Placed placed) { return placed == design::Placed::raised ? "raised" : "flat"; }

std::string whole_days(double days) { return fmt::format("{:.0f}", std::floor(days + 1e-9)); }

/// "can wait 2 to 4 days", "wants water now", "wants water today or tomorrow".
std::string wait_words(StoreNow& store) {
  const double low = std::floor(store.can_wait_days.range->low + 1e-9);
  const double high = std::floor(store.can_wait_days.range->high + 1e-9);
  const double likely = std::floor(*store.can_wait_days.value + 1e-9);
  if (likely < 1.0) {
    store.state = "wants_water";
    return high < 1.0 ? "wants water now" : fmt::format("wants water; at the best it waits {:.0f} days", high);
  }
  if (likely < 3.0) {
    store.state = "soon";
    return low < 1.0 ? fmt::format("wants water within {:.0f} days; feel it today", std::max(1.0, likely))
                     : fmt::format("can wait {:.0f} to {:.0f} days", low, std::max(high, low + 1.0));
  }
  store.state = "can_wait";
  if (likely >= days_looked_ahead) {
    return low >= 1.0 ? fmt::format("can wait more than {} days", whole_days(low))
                      : std::string("can likely wait for weeks, but not for certain a day");
  }
  return low == high ? fmt::format("can wait {:.0f} days", low)
                     : fmt::format("can wait {:.0f} to {:.0f} days", low, high);
}

std::vector<double> at_evening(const std::vector<std::vector<double>>& draws, std::size_t evening) {
  std::vector<double> values;
  for (const std::vector<double>& draw : draws) values.push_back(draw[evening]);
  return values;
}

/// Drier than wilting is as empty for plants as wilting, and what still drips is as full as it stays: in words 0 and
/// 100 %. The document has the numbers as they are.
std::string share_words(const Figure& figure) {
  const auto percent = [](double frac) { return 100.0 * std::clamp(frac, 0.0, 1.0); };
  return fmt::format("{:.0f} % ({:.0f} to {:.0f})", percent(*figure.value), percent(figure.range->low),
                     percent(figure.range->high));
}

std::string litre_words(const Figure& litres) {
  return fmt::format("{:.0f} ({:.0f} to {:.0f})", *litres.value, litres.range->low, litres.range->high);
}

/// Everything that follows from the draws of one store.
void fill_figures(StoreNow& store, const StoreDraws& draws, const StoreInputs& inputs, double area_m2,
                  const std::vector<double>& below_frac, double can_l) {
  const auto today = static_cast<std::size_t>(days_looked_back);
  const std::string from =
      fmt::format("{} draws, tenth and ninetieth part; {}", draws.store_frac.size(), draws.driven_by);
  store.driven_by = draws.driven_by;
  const std::vector<double> stores = at_evening(draws.store_frac, today);
  store.store_frac = figure_of_draws(stores, from);
  std::vector<double> waits;
  std::vector<double> due_mm;
  for (std::size_t i = 0; i < draws.store_frac.size(); ++i) {
    const std::vector<double> ahead(draws.store_frac[i].begin() + static_cast<std::ptrdiff_t>(today),
                                    draws.store_frac[i].end());
    const double wait = days_until_below(ahead, below_frac[i]);
    waits.push_back(wait);
    const auto at = std::min(today + static_cast<std::size_t>(wait), draws.missing_mm[i].size() - 1);
    due_mm.push_back(draws.missing_mm[i][at]);
  }
  store.can_wait_days = figure_of_draws(waits, from + fmt::format("; no rain from now on, at most {} days are looked "
                                                                  "ahead",
                                                                  days_looked_ahead));
  const auto litres = [&](std::vector<double> mm) {
    for (double& one : mm) one *= area_m2;
    return figure_of_draws(mm, "what is missing until it drips, over the draws");
  };
  const std::vector<double> missing = at_evening(draws.missing_mm, today);
  store.litres_each = litres(missing);
  store.litres_each_when_due = litres(due_mm);
  const auto scaled = [&](const Figure& figure, double factor, const std::string& words) {
    return results::figure_with_range(factor * *figure.value, factor * figure.range->low, factor * figure.range->high,
                                      words);
  };
  store.litres_all = scaled(store.litres_each, store.count, "all of them alike");
  store.cans = scaled(store.litres_all, 1.0 / can_l, fmt::format("cans of {:g} l", can_l));
  const std::string wait = wait_words(store);
  const bool is_due = store.state == "wants_water";
  store.statement = fmt::format(
      "{}: store {}; {}. Until it drips: {} l each{}.", store.name, share_words(store.store_frac), wait,
      litre_words(is_due ? store.litres_each : store.litres_each_when_due), is_due ? "" : " when it is due");
  if (store.litres_usual.value && is_due) {
    store.statement += fmt::format(" As its recipe has it: {:g} l each.", *store.litres_usual.value);
  }
  for (int evening = days_looked_back - shown_back; evening <= days_looked_back + shown_ahead; ++evening) {
    const auto at = static_cast<std::size_t>(evening);
    const std::vector<double> all = at_evening(draws.store_frac, at);
    report::StoreEvening shown;
    shown.day = text_from_day(inputs.today - days_looked_back + evening);
    shown.is_ahead = evening > days_looked_back;
    shown.likely_frac = stats::quantile(all, 0.5);
    shown.low_frac = stats::quantile(all, least_shown_frac);
    shown.high_frac = stats::quantile(all, most_shown_frac);
    shown.given_mm = at < draws.given_mm.size() ? draws.given_mm[at] : 0.0;
    store.evenings.push_back(std::move(shown));
  }
}

void add_young(StoreNow& store, const StoreGroup& group, const StoreDraws& draws, std::int64_t today) {
  if (group.young.empty()) return;
  std::vector<double> waits;
  for (const std::vector<double>& draw : draws.store_frac) {
    waits.push_back(days_until_below({draw.begin() + days_looked_back, draw.end()}, young_wants_below_frac));
  }
  const Figure wait = figure_of_draws(waits, "");
  const bool is_new = group.youngest_day && today - *group.youngest_day < 14;
  store.notes.push_back(fmt::format(
      "First weeks after planting ({}): roots are short, so water at {:.0f} % of the store, in {} to {} days{}; shade "
      "helps. Common practice, no source.",
      report::joined(group.young), 100.0 * young_wants_below_frac, whole_days(wait.range->low),
      whole_days(wait.range->high),
      is_new ? ", and wet the top every second or third day while it does not rain" : ""));
}

StoreNow container_store(const StoreInputs& inputs, const DrawnWeather& weather,
                         const std::vector<std::vector<planting::CropWeather>>& crops,
                         const design::Container& container, double can_l) {
  StoreNow store;
  store.name = container.name;
  store.what = "container";
  store.litres_usual = results::figure_missing("a container has no recipe");
  const catalogue::Plant* plant = plant_in(container, inputs.catalogue);
  if (plant != nullptr) store.plant = plant->name;
  const double area_m2 = 1e-6 * container.length_mm * container.width_mm;
  const std::int64_t first = inputs.today - days_looked_back;
  const planting::CropStore holds = planting::crop_store(container);
  std::map<std::int64_t, GivenDay> given = given_to_container(inputs.records, container);
  if (inputs.filled_day) given[*inputs.filled_day].is_until_drip = true;
  StoreDraws draws;
  int n_days = 0;
  draws.given_mm.assign(static_cast<std::size_t>(days_looked_back + 1), 0.0);
  std::vector<double> watering(static_cast<std::size_t>(days_looked_back + 1 + days_looked_ahead), 0.0);
  for (const auto& [date, day] : given) {
    if (date < first || date > inputs.today) continue;
    ++n_days;
    const auto at = static_cast<std::size_t>(date - first);
    watering[at] = day.is_until_drip ? holds.available_mm : day.mm;
    draws.given_mm[at] = watering[at];
  }
  const bool is_known = n_days > 0;
  draws.driven_by = is_known
                        ? fmt::format("watered on {} of the last {} days, by what was noted", n_days, days_looked_back)
                        : "nothing is noted of its watering: counted from full this evening";
  // Nobody knows when it was watered: the answer is how long a full one lasts.
  if (!is_known) watering[static_cast<std::size_t>(days_looked_back)] = holds.available_mm;
  std::vector<double> below;
  const int n_draws = static_cast<int>(weather.years.size());
  for (int draw = 0; draw < n_draws; ++draw) {
    const double share = (static_cast<double>((7 * draw) % n_draws) + 0.5) / n_draws;
    planting::CropQuestion question{.container = container,
                                    .plant = plant,
                                    .weather = crops[static_cast<std::size_t>(draw)],
                                    .first_day = weather.first_day,
                                    .n_days = days_looked_back + 1 + days_looked_ahead,
                                    .watering_mm = watering};
    question.first_store_frac = (draw + 0.5) / n_draws;
    question.stand_factor =
        stats::split_triangular_quantile({stand_factor.low, stand_factor.likely, stand_factor.high}, share);
    planting::CropDays days = planting::run_crop_days(question);
    below.push_back(days.wants_below_frac[static_cast<std::size_t>(days_looked_back)]);
    draws.store_frac.push_back(std::move(days.store_frac));
    draws.missing_mm.push_back(std::move(days.missing_mm));
  }
  store.wants_below_frac = figure_of_draws(below, plant != nullptr && plant->easy_water_frac
                                                      ? "easy water of the plant, by the day's heat"
                                                      : "easy water of a vegetable, for the plant is not known to us");
  fill_figures(store, draws, inputs, area_m2, below, can_l);
  if (!is_known) {
    store.state = "not_known";
    store.statement = fmt::format(
        "{}{}: nothing is noted of its watering. Full this evening it {}; then about {} l.", store.name,
        store.plant.empty() ? "" : " (" + store.plant + ")",
        [&] {
          StoreNow copy = store;
          return wait_words(copy);
        }(),
        litre_words(store.litres_each_when_due));
  }
  if (plant == nullptr) {
    store.notes.push_back("What grows in it is not said: plant = { name = \"strawberry\" } in its [[container]].");
  }
  return store;
}

}  // namespace

const catalogue::Plant* plant_in(const design::Container& container, const catalogue::Catalogue& catalogue) {
  return container.plant ? catalogue::find_plant(catalogue, container.plant->name) : nullptr;
}

Figure figure_of_draws(const std::vector<double>& draws, const std::string& from) {
  const double middle = stats::quantile(draws, 0.5);
  return results::figure_with_range(middle, std::min(middle, stats::quantile(draws, least_shown_frac)),
                                    std::max(middle, stats::quantile(draws, most_shown_frac)), from);
}

double days_until_below(const std::vector<double>& store_frac, double below_frac) {
  for (std::size_t evening = 0; evening < store_frac.size(); ++evening) {
    if (store_frac[evening] >= below_frac) continue;
    if (evening == 0) return 0.0;
    // Between two evenings, by a straight line.
    const double fell = store_frac[evening - 1] - store_frac[evening];
    const double share = fell > 0.0 ? (store_frac[evening - 1] - below_frac) / fell : 0.0;
    return static_cast<double>(evening - 1) + share;
  }
  return days_looked_ahead;
}

Figure wants_below(const design::Recipe& recipe, const catalogue::Catalogue& catalogue,
                   double evapotranspiration_mm_per_d) {
  if (recipe.watering && recipe.watering->when_store_below_frac) {
    return results::figure_without_range(*recipe.watering->when_store_below_frac, "as the recipe says");
  }
  double cover = 0.0;
  results::Interval easy;
  for (const design::RecipePlant& one : recipe.plants) {
    const catalogue::Plant* plant = catalogue::find_plant(catalogue, one.name);
    if (plant == nullptr || !plant->easy_water_frac) continue;
    const auto share = [&](double table) { return planting::easy_frac_on_day(table, evapotranspiration_mm_per_d); };
    easy = easy + one.cover_frac * results::Interval{share(plant->easy_water_frac->low),
                                                     share(plant->easy_water_frac->likely),
                                                     share(plant->easy_water_frac->high)};
    cover += one.cover_frac;
  }
  if (cover <= 0.0) {
    return results::figure_with_range(wanting_store_frac.likely, wanting_store_frac.low, wanting_store_frac.high,
                                      std::string(wanting_store_frac.source));
  }
  return results::figure_with_range(1.0 - easy.likely / cover, 1.0 - easy.high / cover, 1.0 - easy.low / cover,
                                    "easy water of the plants, by the day's heat");
}

std::vector<StoreNow> answer_stores(const StoreInputs& inputs, const DrawnWeather& weather, double can_l,
                                    const Executor& executor, const Context& context) {
  const std::vector<StoreGroup> groups = store_groups(inputs);
  const std::vector<StoreDraws> draws = run_store_draws(inputs, weather, groups, executor, context);
  std::vector<StoreNow> stores;
  const int n_draws = static_cast<int>(weather.years.size());
  for (std::size_t g = 0; g < groups.size(); ++g) {
    const StoreGroup& group = groups[g];
    const design::Recipe& recipe = inputs.design->recipes[static_cast<std::size_t>(group.recipe)];
    StoreNow store;
    store.name = recipe.name;
    store.what = "module";
    store.form = form_words(group.placed);
    store.count = group.count;
    store.labels = group.labels;
    store.notes = draws[g].notes;
    constexpr double middling_mm_per_d = 3.0;
    store.wants_below_frac = wants_below(recipe, inputs.catalogue, middling_mm_per_d);
    store.litres_usual = recipe.watering
                             ? results::figure_without_range(recipe.watering->litres_per_module, "as the recipe says")
                             : results::figure_missing("the recipe says nothing of watering");
    std::vector<double> below;
    for (int draw = 0; draw < n_draws; ++draw) {
      const Figure& figure = store.wants_below_frac;
      const double share = (static_cast<double>((3 * draw) % n_draws) + 0.5) / n_draws;
      below.push_back(
          figure.range ? stats::split_triangular_quantile({figure.range->low, *figure.value, figure.range->high}, share)
                       : *figure.value);
    }
    fill_figures(store, draws[g], inputs, 1e-6 * recipe.length_mm * recipe.width_mm, below, can_l);
    add_young(store, group, draws[g], inputs.today);
    stores.push_back(std::move(store));
  }
  if (inputs.design->containers.empty()) return stores;
  std::vector<std::vector<planting::CropWeather>> crops;
  for (const climate::WeatherYear& year : weather.years) {
    crops.push_back(planting::crop_weather(year, inputs.design->site.elevation_m, inputs.design->site.wind_factor));
  }
  for (const design::Container& container : inputs.design->containers) {
    stores.push_back(container_store(inputs, weather, crops, container, can_l));
  }
  return stores;
}

Figure minutes_for(const results::Interval& litres, const std::vector<logbook::EventRecord>& records) {
  // Minutes a litre as they were noted here; else ours.
  std::vector<double> minutes_per_l;
  for (const logbook::EventRecord& record : records) {
    const logbook::Event& event = record.event;
    if (record.superseded_by || event.kind != logbook::EventKind::watered) continue;
    if (event.water_l && *event.water_l > 0.0 && event.duration_min) {
      minutes_per_l.push_back(*event.duration_min / *event.water_l);
    }
  }
  const bool is_own = minutes_per_l.size() >= 5;
  const results::Interval pace =
      is_own ? results::Interval{stats::quantile(minutes_per_l, least_shown_frac), stats::quantile(minutes_per_l, 0.5),
                                 stats::quantile(minutes_per_l, most_shown_frac)}
             : results::Interval{0.1, 0.25, 0.5};
  const results::Interval minutes = pace * litres;
  return results::figure_with_range(minutes.likely, minutes.low, minutes.high,
                                    is_own ? fmt::format("{} rounds in the logbook", minutes_per_l.size())
                                           : "one to five minutes a can of ten litres: our own estimate");
}

report::WateringRound answer_round(const std::vector<StoreNow>& stores,
                                   const std::vector<logbook::EventRecord>& records, double can_l,
                                   const std::string& when) {
  report::WateringRound round;
  results::Interval litres;
  std::vector<std::string> names;
  bool is_usual = false;
  for (const StoreNow& store : stores) {
    if (store.state != "wants_water") continue;
    results::Interval one = {store.litres_all.range->low, *store.litres_all.value, store.litres_all.range->high};
    if (store.litres_usual.value) {
      // What the person decided to give; no more than it takes.
      const double usual = store.count * *store.litres_usual.value;
      one = {std::min(usual, one.low), std::min(usual, one.likely), std::min(usual, one.high)};
      is_usual = true;
    }
    litres = litres + one;
    names.push_back(store.count > 1 ? fmt::format("{} modules of {}", store.count, store.name) : store.name);
  }
  const auto figure = [](const results::Interval& one, const std::string& from) {
    return results::figure_with_range(one.likely, one.low, one.high, from);
  };
  round.litres =
      figure(litres, "the stores that want water, added up; as the recipe says where it does, else until it drips");
  const results::Interval cans = {std::ceil(litres.low / can_l), std::ceil(litres.likely / can_l),
                                  std::ceil(litres.high / can_l)};
  round.cans = figure(cans, fmt::format("whole cans of {:g} l", can_l));
  round.minutes = minutes_for(litres, records);
  round.statement =
      names.empty()
          ? fmt::format("Nothing wants water {}.", when)
          : fmt::format(
                "Water {}: {}; {:.0f} cans ({:.0f} to {:.0f}) of {:g} l, about {:.0f} minutes ({:.0f} to {:.0f}).{}",
                when, report::joined(names), cans.likely, cans.low, cans.high, can_l, *round.minutes.value,
                round.minutes.range->low, round.minutes.range->high, is_usual ? "" : " Fill each until it drips.");
  return round;
}

}  // namespace houseleek::studies
