// Damp in the deck: what is run, and what is said of it.
#include "studies/damp_answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <memory>

#include "base/contract.hpp"
#include "catalogue/properties.hpp"
#include "climate/calendar.hpp"
#include "physics/air.hpp"
#include "physics/build_up.hpp"
#include "report/words.hpp"
#include "studies/damp_cases.hpp"
#include "studies/damp_surface.hpp"
#include "studies/run_parts.hpp"

namespace houseleek::studies {
namespace {

using report::DampAnswer;
using report::DampCover;
using report::Figure;

constexpr std::string_view professional_words =
    "No all-clear: a timber or insulated deck needs a professional (a building physicist) who knows how it is built "
    "before modules shade it.";
constexpr double wet_wood_percent = 20.0;
constexpr std::size_t months_a_year = 12;

struct CaseTask {
  std::size_t cover = 0;
  std::size_t change = 0;
  DampOutcome outcome;
  std::atomic<double> done_frac = 0.0;
  [[nodiscard]] static double weight() { return 1.0; }
};

/// The last year's value of a column by a rule.
template <class Rule>
double of_last_year(const std::vector<double>& months, const Rule& rule) {
  return rule(std::vector<double>(months.end() - static_cast<std::ptrdiff_t>(months_a_year), months.end()));
}

double greatest(const std::vector<double>& values) { return *std::max_element(values.begin(), values.end()); }
double least(const std::vector<double>& values) { return *std::min_element(values.begin(), values.end()); }

/// Likely is the first case, the ends are those of all.
template <class Value>
Figure figure_over(const std::vector<const DampOutcome*>& outcomes, const Value& value) {
  double low = value(*outcomes.front());
  double high = low;
  for (const DampOutcome* one : outcomes) {
    low = std::min(low, value(*one));
    high = std::max(high, value(*one));
  }
  return results::figure_with_range(value(*outcomes.front()), low, high,
                                    fmt::format("{} cases, one thing changed in each", outcomes.size()));
}

Figure mould_figure(const std::vector<const DampOutcome*>& outcomes) {
  double low = outcomes.front()->mould_index.front();
  double high = low;
  for (const DampOutcome* one : outcomes) {
    low = std::min(low, one->mould_index.front());
    high = std::max(high, one->mould_index.back());
  }
  return results::figure_with_range(
      outcomes.front()->mould_index[1], low, high,
      fmt::format("{} cases, wood from hardly to very sensitive that recovers wholly or by a tenth", outcomes.size()));
}

void fill_series(const std::vector<const DampOutcome*>& outcomes, report::DampSeries& series) {
  for (std::size_t month = 0; month < n_damp_months; ++month) {
    double low = outcomes.front()->water_kg_per_m2[month];
    double high = low;
    for (const DampOutcome* one : outcomes) {
      low = std::min(low, one->water_kg_per_m2[month]);
      high = std::max(high, one->water_kg_per_m2[month]);
    }
    series.low_kg_per_m2.push_back(low);
    series.likely_kg_per_m2.push_back(outcomes.front()->water_kg_per_m2[month]);
    series.high_kg_per_m2.push_back(high);
  }
}

/// Of several cases: 12 dry out every summer, 1 is not shown to dry.
std::string counts_words(const DampCover& cover) {
  std::vector<std::string> parts;
  const auto add = [&parts](int n, std::string_view one, std::string_view more) {
    if (n > 0) parts.push_back(fmt::format("{} {}", n, n == 1 ? one : more));
  };
  add(cover.n_wetter, "gets wetter each winter", "get wetter each winter");
  add(cover.n_not_shown, "is not shown to dry", "are not shown to dry");
  add(cover.n_dries, "dries out every summer", "dry out every summer");
  return fmt::format("{}", fmt::join(parts, ", "));
}

/// How wet the deck gets in between: its wood, else all its water.
std::string wettest_words(const DampCover& cover) {
  return cover.wood_percent.value
             ? fmt::format("wood at {} % of its mass at its wettest", report::short_figure(cover.wood_percent))
             : fmt::format("{:.2f} kg/m2 of water at its wettest", greatest(cover.series.likely_kg_per_m2));
}

std::string statement_of(const DampCover& cover, DampSays likely) {
  const std::string who = cover.form == "bare" ? "Bare" : cover.name + ", " + cover.form;
  const bool is_rot_feared = cover.wood_percent.value && cover.wood_percent.range->high > wet_wood_percent;
  return fmt::format("{}: with likely figures {}, with {}; of {} cases {}.{} None of this clears it.", who,
                     words_of(likely), wettest_words(cover), cover.cases.size(), counts_words(cover),
                     is_rot_feared ? " Above 20 % rot is feared (DIN 68800-2, from memory)." : "");
}

DampCover cover_from(const DampForm& form, const std::vector<DampChange>& changes,
                     const std::vector<const DampOutcome*>& outcomes, bool has_wood) {
  DampCover cover;
  cover.name = form.name;
  cover.form = form.form;
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    const DampOutcome& one = *outcomes[i];
    cover.n_dries += one.says == DampSays::dries_every_summer ? 1 : 0;
    cover.n_wetter += one.says == DampSays::wetter_each_winter ? 1 : 0;
    cover.n_not_shown += one.says == DampSays::not_shown_to_dry ? 1 : 0;
    cover.cases.push_back({.name = changes[i].name,
                           .says = std::string(words_of(one.says)),
                           .wood_percent = of_last_year(one.wood_percent, greatest),
                           .driest_humidity_percent = 100.0 * of_last_year(one.humidity, least),
                           .left_kg_per_m2 = one.left_kg_per_m2});
  }
  cover.driest_humidity_percent =
      figure_over(outcomes, [](const DampOutcome& one) { return 100.0 * of_last_year(one.humidity, least); });
  cover.left_kg_per_m2 = figure_over(outcomes, [](const DampOutcome& one) { return one.left_kg_per_m2; });
  if (has_wood) {
    cover.wood_percent =
        figure_over(outcomes, [](const DampOutcome& one) { return of_last_year(one.wood_percent, greatest); });
    cover.wood_months_above_20 = figure_over(outcomes, [](const DampOutcome& one) {
      return of_last_year(one.wood_percent, [](const std::vector<double>& year) {
        return static_cast<double>(
            std::count_if(year.begin(), year.end(), [](double percent) { return percent > wet_wood_percent; }));
      });
    });
    cover.mould_index = mould_figure(outcomes);
  } else {
    const std::string why = "no wood in the deck";
    cover.wood_percent = results::figure_missing(why);
    cover.wood_months_above_20 = results::figure_missing(why);
    cover.mould_index = results::figure_missing(why);
  }
  fill_series(outcomes, cover.series);
  cover.statement = statement_of(cover, outcomes.front()->says);
  return cover;
}

report::DampSteady steady_of(const DampCaseInputs& inputs) {
  const simulation::DampBuildUp built = simulation::make_damp_build_up(inputs.roof, {}, inputs.pressure_pa);
  std::vector<physics::SteadyLayer> layers = built.steady;
  layers.push_back({physics::inside_surface_resistance_m2_k_per_w(physics::HeatDirection::up), 0.0});
  std::array<double, 12> month_s{};
  for (std::size_t month = 0; month < 12; ++month) month_s[month] = 86400.0 * climate::n_days_in_month[month];
  std::array<physics::SteadyYear, 3> years;
  for (std::size_t i = 0; i < years.size(); ++i) {
    years[i] = physics::steady_damp_year(layers, steady_sides(inputs, room_excess_pa[i]), month_s);
  }
  const auto figure = [&years](double physics::SteadyYear::*value) {
    const auto [low, high] = std::minmax({years[0].*value, years[1].*value, years[2].*value});
    return results::figure_with_range(years[1].*value, low, high, "a dry and a damp room");
  };
  report::DampSteady steady;
  steady.most_kg_per_m2 = figure(&physics::SteadyYear::most_kg_per_m2);
  steady.left_kg_per_m2 = figure(&physics::SteadyYear::left_kg_per_m2);
  const bool is_at_risk =
      std::any_of(years.begin(), years.end(), [](const physics::SteadyYear& year) { return year.has_condensation; });
  steady.statement =
      is_at_risk ? fmt::format(
                       "At risk by the steady monthly method: up to {:.2f} kg/m2 gather, {:.2f} are left after a "
                       "year.",
                       steady.most_kg_per_m2.range->high, steady.left_kg_per_m2.range->high)
                 : std::string(
                       "The steady monthly method finds no condensation. It leaves out water held and sucked by "
                       "the layers and air that flows through: nothing follows from it.");
  return steady;
}

design::Assumption assumption(std::string path, std::string name, std::string unit, const std::array<double, 3>& ends,
                              std::string source, catalogue::Certainty certainty) {
  return {.path = std::move(path),
          .name = std::move(name),
          .unit = std::move(unit),
          .low = ends[0],
          .likely = ends[1],
          .high = ends[2],
          .source = std::move(source),
          .certainty = certainty,
          .from = design::AssumedFrom::default_value};
}

std::vector<design::Assumption> assumed_damp(const design::Roof& roof) {
  using catalogue::Certainty;
  std::vector<design::Assumption> assumed = {
      assumption("damp.room_excess_pa", "what people add to the room's vapour pressure at 0 degC outside", "Pa",
                 room_excess_pa, "ISO 13788 annex A, upper ends of classes 1, 2 and 3, as remembered",
                 Certainty::from_memory),
      assumption("damp.start_humidity_frac", "humidity in all layers at the start", "share", start_humidities,
                 "80 % as EN 15026 suggests, as remembered; the range is our own estimate", Certainty::estimate)};
  if (simulation::has_insulation(roof) && !simulation::has_vapour_control(roof)) {
    assumed.push_back(assumption("damp.vapour_control_m",
                                 "vapour control below the insulation that the deck does not name, as still air", "m",
                                 {0.0, 0.0, unnamed_retarder_m[1]},
                                 "not described: none, or up to a foil; our own estimate", Certainty::estimate));
  }
  std::vector<std::string> seen;
  for (const design::Layer& layer : roof.deck) {
    if (std::find(seen.begin(), seen.end(), layer.material_name) != seen.end()) continue;
    seen.push_back(layer.material_name);
    for (const catalogue::MaterialProperty& property : catalogue::material_properties()) {
      const catalogue::Spread* figure = catalogue::find_property(layer.material, property);
      if (!property.is_of_damp || figure == nullptr || figure->certainty == Certainty::own_figure) continue;
      design::Assumption one =
          assumption(fmt::format("material[{}].{}", layer.material_name, property.rule.key),
                     fmt::format("{}: {}", layer.material_name, property.words), std::string(property.rule.unit),
                     {figure->low, figure->likely, figure->high}, figure->source, figure->certainty);
      one.from = design::AssumedFrom::catalogue;
      assumed.push_back(std::move(one));
    }
  }
  return assumed;
}

std::string deck_words(const design::Roof& roof) {
  const simulation::DampBuildUp built = simulation::make_damp_build_up(roof, {}, physics::standard_pressure_pa);
  std::string text =
      fmt::format("{} hold water; the other layers are sheets that resist vapour", fmt::join(built.names, ", "));
  if (!simulation::has_insulation(roof)) return text + ".";
  return text + (simulation::has_vapour_control(roof)
                     ? "; vapour control lies below the insulation."
                     : "; no vapour control below the insulation is described: the range goes from none to a foil.");
}

std::string weather_words(const DampYears& years) {
  const std::size_t n = years.years.size();
  std::string text = n == 1 ? std::string("one year of weather five times")
                            : fmt::format("{} years of weather one after the other", std::min<std::size_t>(n, 5));
  if (!years.failures.empty()) text += fmt::format("; {} years could not be run", years.failures.size());
  return text;
}

/// The covers' cases in one breath: how many get wetter, or else how many dry; then how wet the wood gets, in that order.
std::string short_words(const DampAnswer& answer) {
  const bool is_wetter = std::any_of(answer.covers.begin(), answer.covers.end(),
                                     [](const DampCover& cover) { return cover.n_wetter > 0; });
  std::vector<std::string> counts;
  std::vector<std::string> wet_wood;
  for (const DampCover& cover : answer.covers) {
    counts.push_back(fmt::format("{} {}", is_wetter ? cover.n_wetter : cover.n_dries, cover.form));
    if (cover.wood_percent.value) wet_wood.push_back(fmt::format("{:.0f}", *cover.wood_percent.value));
  }
  const std::string wood = wet_wood.empty() ? "" : fmt::format("; wood to {} %", fmt::join(wet_wood, ", "));
  return fmt::format("{}: {} of {} cases{}: no all-clear, ask a building physicist",
                     is_wetter ? "wetter each winter" : "dries each summer", fmt::join(counts, ", "),
                     answer.covers.front().cases.size(), wood);
}

}  // namespace

std::string no_damp_because(const design::Design& design, int n_hours) {
  if (!simulation::has_timber(design.roof) && !simulation::has_insulation(design.roof)) {
    return "the deck has no timber and no insulation: nothing in it rots or stays wet unseen, so damp is not run "
           "through the years";
  }
  if (n_hours < climate::n_hours_in_year) {
    return "only a part of the year is studied, and damp takes whole years: nothing is cleared";
  }
  const std::string missing = simulation::damp_figures_missing(design.roof);
  return missing.empty() ? "" : missing + ": damp could not be run, and nothing is cleared";
}

double damp_runs_of(const design::Design& design, int n_years, int n_hours) {
  if (!no_damp_because(design, n_hours).empty()) return 0.0;
  // Measured: the cases of one cover take as long as three whole covers through a year.
  constexpr double runs_of_cases = 3.0;
  const double n_forms = static_cast<double>(damp_forms(design).size());
  return n_forms * (runs_of_cases + 0.3 * std::min(n_years, 2 * n_damp_years));
}

DampAnswer answer_damp(const DampInputs& inputs, const Executor& executor, const Context& context) {
  const design::Design& design = *inputs.design;
  const design::Roof& roof = design.roof;
  DampAnswer answer;
  answer.surface = answer_surface(design, inputs.weather);
  answer.because = no_damp_because(design, inputs.options.n_hours);
  answer.is_run = answer.because.empty();
  const bool is_light = simulation::has_timber(roof) || simulation::has_insulation(roof);
  if (is_light) answer.professional = professional_words;
  if (!answer.is_run) {
    answer.statement = "Damp in the deck: " + answer.because + ".";
    if (is_light) answer.short_statement = "damp in the deck could not be run: no all-clear, ask a building physicist";
    return answer;
  }
  const std::vector<DampForm> forms = damp_forms(design);
  const int room = room_of_damp(inputs.layout);
  constexpr double years_share = 0.3;
  const DampYears years = run_damp_years({.design = inputs.design,
                                          .layout = inputs.layout,
                                          .weather = inputs.weather,
                                          .weather_of_draw = inputs.weather_of_draw,
                                          .forms = forms,
                                          .room = room,
                                          .n_years = std::min(inputs.n_years, 2 * n_damp_years),
                                          .options = inputs.options},
                                         executor, part_of(context, 0.0, years_share));
  const std::vector<DampChange> changes = damp_changes(roof, years.years.size());
  const bool is_north = design.site.latitude_deg >= 0.0;
  const double pressure_pa = physics::pressure_at_elevation_pa(design.site.elevation_m);
  const auto case_inputs = [&](std::size_t cover) {
    return DampCaseInputs{.roof = roof,
                          .years = years,
                          .cover = cover,
                          .is_wet_above = forms[cover].form == "flat",
                          .is_north = is_north,
                          .pressure_pa = pressure_pa};
  };
  std::vector<std::unique_ptr<CaseTask>> tasks;
  for (std::size_t cover = 0; cover < forms.size(); ++cover) {
    for (std::size_t change = 0; change < changes.size(); ++change) {
      tasks.push_back(std::make_unique<CaseTask>());
      tasks.back()->cover = cover;
      tasks.back()->change = change;
    }
  }
  run_parts(
      tasks,
      [&](CaseTask& task, const Context& of_task) {
        task.outcome = run_damp_case(case_inputs(task.cover), changes[task.change], of_task);
      },
      executor, part_of(context, years_share, 1.0));

  for (std::size_t cover = 0; cover < forms.size(); ++cover) {
    std::vector<const DampOutcome*> outcomes;
    for (const auto& task : tasks) {
      if (task->cover == cover) outcomes.push_back(&task->outcome);
    }
    answer.covers.push_back(cover_from(forms[cover], changes, outcomes, simulation::has_timber(roof)));
    answer.covers.back().steady = steady_of(case_inputs(cover));
  }
  for (const auto& task : tasks) {
    const double water = task->outcome.water_residual_kg_per_m2;
    answer.water_residual_kg_per_m2 = std::max(answer.water_residual_kg_per_m2, water < 0.0 ? -water : water);
    answer.heat_residual_frac = std::max(answer.heat_residual_frac, task->outcome.heat_residual_frac);
  }
  answer.n_years = n_damp_years;
  answer.n_runs = static_cast<int>(tasks.size());
  answer.first_month = first_damp_month(is_north);
  answer.room = design.rooms[static_cast<std::size_t>(room)].name;
  answer.weather = weather_words(years);
  answer.deck = deck_words(roof);
  answer.assumed = assumed_damp(roof);
  if (forms.size() == 1) answer.not_run.emplace_back("planted: no recipe is described");
  if (forms.size() == 2) answer.not_run.emplace_back("planted raised: the recipe has no spacers");
  answer.left_out = {"air that flows through cracks in the deck: it can carry far more vapour than diffusion",
                     "rain through leaks", "joists beside the insulation",
                     "what each summer's sun does beside the modules",
                     "decay: no published formula with its text was at hand"};
  for (const DampCover& cover : answer.covers) {
    answer.statement += (answer.statement.empty() ? "" : " ") + cover.statement;
  }
  answer.short_statement = short_words(answer);
  return answer;
}

}  // namespace houseleek::studies
