// How often in each month, what a barrel covers, and flat against raised: from the same years of weather.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "climate/calendar.hpp"
#include "climate/weather_columns.hpp"
#include "geometry/outline.hpp"
#include "planting/barrel.hpp"
#include "planting/crop_days.hpp"
#include "report/chart_parts.hpp"
#include "report/words.hpp"
#include "results/interval.hpp"
#include "simulation/cover_layers.hpp"
#include "stats/split_triangular.hpp"
#include "studies/water_answers.hpp"
#include "studies/water_parts.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;

constexpr std::size_t n_days = climate::n_days_in_year;
constexpr std::size_t n_months = climate::n_months;
constexpr std::array<double, 10> barrel_sizes_l = {100, 200, 300, 500, 750, 1000, 1500, 2000, 3000, 5000};
// Of the rain on a bare roof, what reaches the outlet: wetting, splash and the grating take the rest. Ours.
constexpr results::Interval bare_runoff_frac = {0.75, 0.85, 0.95};
// Beyond it nobody keeps a rhythm: rain does it.
constexpr double rain_does_it_days = 45.0;
constexpr results::Interval container_stand = {0.8, 1.2, 1.8};

/// One thing that is watered, through one year.
struct YearRun {
  std::vector<double> watered_mm;
  std::vector<double> left_mm;
  std::vector<double> ceiling_wh_per_m2;
};

struct Watered {
  std::string name;
  std::string form;
  int count = 1;
  double area_m2 = 1.0;
  std::vector<YearRun> years;
};

/// Days between waterings in each month: every day of a gap of g days counts as 1/g of a watering.
std::array<double, n_months> mean_intervals_days(const YearRun& run) {
  std::vector<double> rate(n_days, 0.0);
  for (std::size_t day = 0; day < n_days; ++day) {
    if (run.watered_mm[day] <= 0.0) continue;
    std::size_t gap = 1;
    while (gap < n_days && run.watered_mm[(day + gap) % n_days] <= 0.0) ++gap;
    for (std::size_t i = 1; i <= gap; ++i) rate[(day + i) % n_days] = 1.0 / static_cast<double>(gap);
  }
  std::array<double, n_months> intervals{};
  for (std::size_t month = 0; month < n_months; ++month) {
    double sum = 0.0;
    for (int day = climate::first_day_of_month[month]; day < climate::first_day_of_month[month + 1]; ++day) {
      sum += rate[static_cast<std::size_t>(day)];
    }
    if (sum > 0.0) intervals[month] = climate::n_days_in_month[month] / sum;
  }
  return intervals;
}

/// Months in words: "May to Sep".
std::string months_words(std::size_t first, std::size_t last) {
  return first == last ? std::string(report::month_letters[first])
                       : fmt::format("{} to {}", report::month_letters[first], report::month_letters[last]);
}

std::string days_words(double days) { return days < 1.5 ? "every day" : fmt::format("every {:.0f} days", days); }

std::string season_statement(const report::SeasonRule& rule) {
  // Neighbouring months within a third of each other are one season.
  std::string text;
  std::size_t month = 0;
  while (month < n_months) {
    if (!rule.every_days[month].value) {
      ++month;
      continue;
    }
    std::size_t last = month;
    double low = rule.every_days[month].range->low;
    double high = rule.every_days[month].range->high;
    const double likely = *rule.every_days[month].value;
    double sum = likely;
    while (last + 1 < n_months && rule.every_days[last + 1].value &&
           *rule.every_days[last + 1].value<1.34 * likely&& * rule.every_days[last + 1].value> likely / 1.34) {
      ++last;
      low = std::min(low, rule.every_days[last].range->low);
      high = std::max(high, rule.every_days[last].range->high);
      sum += *rule.every_days[last].value;
    }
    text += fmt::format("{}{} {} ({:.0f} to {:.0f})", text.empty() ? "" : "; ", months_words(month, last),
                        days_words(sum / static_cast<double>(last - month + 1)), low, high);
    month = last + 1;
  }
  const std::string rest = "else only in long dry spells";
  if (text.empty()) return fmt::format("{}: rain does it in most years; look in long dry spells.", rule.name);
  return fmt::format("{}: {}; {}. About {:.0f} l each, until it drips.", rule.name, text, rest,
                     *rule.litres_each.value);
}

report::SeasonRule season_rule_of(const Watered& watered, int n_years) {
  report::SeasonRule rule;
  rule.name = watered.name;
  rule.form = watered.form;
  rule.count = watered.count;
  const std::string from = fmt::format(
      "{} years of weather, each with its own evapotranspiration, tenth and ninetieth "
      "part",
      n_years);
  std::vector<double> litres;
  for (std::size_t month = 0; month < n_months; ++month) {
    std::vector<double> intervals;
    for (const YearRun& run : watered.years) {
      const double days = mean_intervals_days(run)[month];
      if (days > 0.0 && days <= rain_does_it_days) intervals.push_back(days);
    }
    if (2 * intervals.size() < watered.years.size()) {
      rule.every_days[month] =
          results::figure_missing("in most years rain keeps it moist enough; look in long dry spells");
      continue;
    }
    rule.every_days[month] = figure_of_draws(intervals, from);
  }
  for (const YearRun& run : watered.years) {
    for (const double one : run.watered_mm) {
      if (one > 0.0) litres.push_back(one * watered.area_m2);
    }
  }
  if (litres.empty()) {
    rule.litres_each = results::figure_missing("never watered in these years");
  } else if (watered.form.empty()) {
    rule.litres_each = figure_of_draws(litres, from);
  } else {
    rule.litres_each = results::figure_without_range(
        litres.front(), "what the rooted layers hold above that store, at the likely figures of their materials");
  }
  rule.statement = season_statement(rule);
  return rule;
}

std::vector<double> rain_by_day(const climate::WeatherYear& year) {
  std::vector<double> rain(n_days, 0.0);
  for (std::size_t slot = 0; slot < year.rain_mm_per_10_min.size(); ++slot) {
    rain[slot / (climate::n_rain_slots * climate::n_hours_in_day)] += year.rain_mm_per_10_min[slot];
  }
  return rain;
}

report::BarrelAnswer answer_barrel(const StoreInputs& inputs, const WaterRequest& request,
                                   const std::vector<climate::WeatherYear>& years, const std::vector<Watered>& all) {
  report::BarrelAnswer barrel;
  double modules_m2 = 0.0;
  for (const Watered& one : all) {
    if (!one.form.empty()) modules_m2 += one.count * one.area_m2;
  }
  const double bare_m2 = std::max(0.0, geometry::area_m2(inputs.design->roof.outline) - modules_m2);
  barrel.catchment =
      request.catchment_m2
          ? fmt::format("another roof of {:g} m2, as given", *request.catchment_m2)
          : fmt::format("this roof's own outlets: {:.0f} m2 bare, and what {:.0f} m2 of modules let through", bare_m2,
                        modules_m2);
  std::vector<double> wanted;
  std::vector<double> caught;
  std::array<std::vector<double>, barrel_sizes_l.size()> covered;
  for (std::size_t y = 0; y < years.size(); ++y) {
    const std::vector<double> rain = rain_by_day(years[y]);
    std::vector<double> inflow(n_days, 0.0);
    std::vector<double> demand(n_days, 0.0);
    const double share = (static_cast<double>((3 * y) % years.size()) + 0.5) / static_cast<double>(years.size());
    const double runoff =
        stats::split_triangular_quantile({bare_runoff_frac.low, bare_runoff_frac.likely, bare_runoff_frac.high}, share);
    for (std::size_t day = 0; day < n_days; ++day) {
      inflow[day] = runoff * rain[day] * request.catchment_m2.value_or(bare_m2);
      for (const Watered& one : all) {
        demand[day] += one.count * one.area_m2 * one.years[y].watered_mm[day];
        if (!request.catchment_m2 && !one.form.empty()) {
          inflow[day] += one.count * one.area_m2 * one.years[y].left_mm[day];
        }
      }
    }
    wanted.push_back(std::accumulate(demand.begin(), demand.end(), 0.0));
    caught.push_back(std::accumulate(inflow.begin(), inflow.end(), 0.0));
    for (std::size_t s = 0; s < barrel_sizes_l.size(); ++s) {
      covered[s].push_back(planting::covered_share_frac(inflow, demand, barrel_sizes_l[s]));
    }
  }
  const std::string from = fmt::format("{} years of weather, tenth and ninetieth part", years.size());
  barrel.wanted_l_per_year = figure_of_draws(wanted, from);
  barrel.caught_l_per_year = figure_of_draws(caught, from);
  for (std::size_t s = 0; s < barrel_sizes_l.size(); ++s) {
    barrel.sizes.push_back({barrel_sizes_l[s], figure_of_draws(covered[s], from)});
  }
  const auto words = [](const report::BarrelSize& one) {
    return fmt::format("{:g} l cover {:.0f} % ({:.0f} to {:.0f})", one.size_l, 100.0 * *one.covered_frac.value,
                       100.0 * one.covered_frac.range->low, 100.0 * one.covered_frac.range->high);
  };
  const report::BarrelSize& largest = barrel.sizes.back();
  // The smallest that covers nine tenths of what the largest does.
  const auto enough = std::find_if(barrel.sizes.begin(), barrel.sizes.end(), [&](const report::BarrelSize& one) {
    return *one.covered_frac.value >= 0.9 * *largest.covered_frac.value;
  });
  barrel.statement = fmt::format("Of {:.0f} l ({:.0f} to {:.0f}) wanted in a year: {}; {}. {}",
                                 *barrel.wanted_l_per_year.value, barrel.wanted_l_per_year.range->low,
                                 barrel.wanted_l_per_year.range->high, words(barrel.sizes[1]), words(barrel.sizes[5]),
                                 enough == barrel.sizes.end() - 1
                                     ? fmt::format("At {:g} l it still rises.", enough->size_l)
                                     : fmt::format("Beyond {:g} l little more is covered.", enough->size_l));
  return barrel;
}

}  // namespace

SeasonAnswers answer_seasons(const StoreInputs& inputs, const WaterRequest& request, const Executor& executor,
                             const Context& context) {
  SeasonAnswers answers;
  const design::Design& design = *inputs.design;
  std::vector<climate::WeatherYear> years;
  for (int draw = 0; draw < request.n_years; ++draw) {
    Result<climate::WeatherYear> year = make_weather(inputs.design, inputs.weather_file, draw);
    if (!year) break;  // a file has no more years; the year in use was read before
    years.push_back(std::move(year).value());
  }
  const int n_years = static_cast<int>(years.size());
  const plan::Layout layout = plan::make_layout(inputs.design);
  const std::vector<StoreGroup> groups = store_groups(inputs);
  std::vector<Watered> all;
  std::vector<Task> tasks;
  const auto follow = [&](YearRun& to, int recipe_index, design::Placed placed, std::size_t year) {
    const design::Recipe& recipe = design.recipes[static_cast<std::size_t>(recipe_index)];
    const double below = *wants_below(recipe, inputs.catalogue, 3.0).value;
    simulation::Watering rule;
    rule.depth_mm = waiting_store_mm(recipe, below);
    rule.hour = recipe.watering ? static_cast<int>(recipe.watering->hour) % 24 : 7;
    rule.when_store_below_frac = below;
    planting::ModuleQuestion question{.design = inputs.design,
                                      .layout = layout,
                                      .weather = years[year],
                                      .recipe = recipe_index,
                                      .placed = placed,
                                      .span = {0, climate::n_days_in_year, 45},
                                      .watering = {{}, {rule}}};
    const design::Default& spread = evapotranspiration_spread;
    question.evapotranspiration_factor = n_years == 1 ? spread.likely
                                                      : drawn_factor(design.climate.seed, static_cast<int>(year),
                                                                     n_years, spread.low, spread.likely, spread.high);
    planting::ModuleDays days = planting::run_module_days(question, context);
    to = {std::move(days.watered_mm), std::move(days.left_mm), std::move(days.ceiling_wh_per_m2)};
  };
  for (const StoreGroup& group : groups) {
    const design::Recipe& recipe = design.recipes[static_cast<std::size_t>(group.recipe)];
    Watered one;
    one.name = recipe.name;
    one.form = group.placed == design::Placed::raised ? "raised" : "flat";
    one.count = group.count;
    one.area_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
    one.years.resize(years.size());
    all.push_back(std::move(one));
  }
  // Flat beside raised, in the year in use, for every recipe that has spacers.
  struct Pair {
    int recipe;
    YearRun flat;
    YearRun raised;
  };
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < design.recipes.size(); ++i) {
    const bool is_laid = std::any_of(groups.begin(), groups.end(),
                                     [i](const StoreGroup& one) { return one.recipe == static_cast<int>(i); });
    if (is_laid && design.recipes[i].spacer.height_mm > 0.0) pairs.push_back({static_cast<int>(i), {}, {}});
  }
  for (std::size_t g = 0; g < groups.size(); ++g) {
    for (std::size_t year = 0; year < years.size(); ++year) {
      tasks.emplace_back([&, g, year](const std::function<void()>& watch) {
        if (watch) watch();
        check_cancelled(context);
        follow(all[g].years[year], groups[g].recipe, groups[g].placed, year);
      });
    }
  }
  for (Pair& pair : pairs) {
    tasks.emplace_back([&](const std::function<void()>& watch) {
      if (watch) watch();
      follow(pair.flat, pair.recipe, design::Placed::flat, 0);
    });
    tasks.emplace_back([&](const std::function<void()>& watch) {
      if (watch) watch();
      follow(pair.raised, pair.recipe, design::Placed::raised, 0);
    });
  }
  executor(tasks, [&context] { check_cancelled(context); });
  for (const design::Container& container : design.containers) {
    Watered one;
    one.name = container.name;
    one.area_m2 = 1e-6 * container.length_mm * container.width_mm;
    for (int year = 0; year < n_years; ++year) {
      const auto weather = planting::crop_weather(years[static_cast<std::size_t>(year)], design.site.elevation_m,
                                                  design.site.wind_factor);
      planting::CropQuestion question{.container = container,
                                      .plant = plant_in(container, inputs.catalogue),
                                      .weather = weather,
                                      .first_day = 0,
                                      .n_days = climate::n_days_in_year,
                                      .watering_mm = {},
                                      .fills_when_due = true};
      question.stand_factor =
          stats::split_triangular_quantile({container_stand.low, container_stand.likely, container_stand.high},
                                           (((3 * year) % n_years) + 0.5) / n_years);
      planting::CropDays days = planting::run_crop_days(question);
      one.years.push_back({std::move(days.watered_mm), std::vector<double>(n_days, 0.0), {}});
    }
    all.push_back(std::move(one));
  }
  for (const Watered& one : all) answers.seasons.push_back(season_rule_of(one, n_years));
  answers.note = fmt::format(
      "Watered to its first drip whenever the store falls below what its plants want; {} {} of weather. With this many "
      "years a tenth part is a rough one.",
      n_years, n_years == 1 ? "year" : "years");
  if (!all.empty()) answers.barrel = answer_barrel(inputs, request, years, all);
  for (const Pair& pair : pairs) {
    report::FormMonths form;
    form.recipe = design.recipes[static_cast<std::size_t>(pair.recipe)].name;
    double flat_mm = 0.0;
    double raised_mm = 0.0;
    std::vector<std::string> cooler;
    std::vector<std::string> warmer;
    for (std::size_t month = 0; month < n_months; ++month) {
      for (int day = climate::first_day_of_month[month]; day < climate::first_day_of_month[month + 1]; ++day) {
        const auto at = static_cast<std::size_t>(day);
        form.flat_kwh_per_m2[month] += 1e-3 * pair.flat.ceiling_wh_per_m2[at];
        form.raised_kwh_per_m2[month] += 1e-3 * pair.raised.ceiling_wh_per_m2[at];
        flat_mm += pair.flat.watered_mm[at];
        raised_mm += pair.raised.watered_mm[at];
      }
      const double less = form.flat_kwh_per_m2[month] - form.raised_kwh_per_m2[month];
      if (less >= 0.1) cooler.push_back(fmt::format("{} {:.1f}", report::month_letters[month], less));
      if (less <= -0.1) warmer.push_back(fmt::format("{} {:.1f}", report::month_letters[month], -less));
    }
    const std::string one_year = "one year's weather only";
    form.flat_watering_mm = results::figure_without_range(flat_mm, one_year);
    form.raised_watering_mm = results::figure_without_range(raised_mm, one_year);
    const auto listed = [](const std::vector<std::string>& months) {
      return months.empty() ? std::string("in no month") : report::joined(months);
    };
    form.statement = fmt::format(
        "{}: raised lets less heat into the room (or takes more out) than flat, kWh/m2: {}; more heat: {}. A closed "
        "cover over the largest room, one year, no range.",
        form.recipe, listed(cooler), listed(warmer));
    answers.changes.recipes.push_back(std::move(form));
  }
  answers.changes.not_computed =
      pairs.empty()
          ? "No recipe that is laid has spacers: nothing to raise or lower. Spacing and shade by season are not "
            "computed."
          : "Only lying flat against lying raised is computed, each all year long. Changing over by date, other "
            "spacing, shade nets by season and the work of it are not computed.";
  return answers;
}

}  // namespace houseleek::studies
