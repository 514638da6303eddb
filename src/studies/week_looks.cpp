// What to look at, lift, make ready for a storm and read off this week.
#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "checks/weights.hpp"
#include "report/words.hpp"
#include "results/interval.hpp"
#include "studies/roof_answers.hpp"
#include "studies/upkeep.hpp"
#include "studies/week_parts.hpp"
#include "upkeep/looks.hpp"
#include "upkeep/storms.hpp"

namespace houseleek::studies {
namespace {

using report::WeekItem;
using report::WeekKind;

constexpr std::size_t most_named = 8;

/// The event that stands for such a look.
std::string look_event(std::string_view what) {
  if (what.starts_with("outlets")) return "looked_at --part outlets --condition good";
  if (what.starts_with("ties")) return "looked_at --part tie --condition good";
  if (what.starts_with("cover")) return "looked_at --part \"cover sheet\" --condition good";
  if (what.starts_with("plants")) return "looked_at --module LABEL --vigour 4 --cover-percent 80";
  if (what.starts_with("spacers")) return "looked_at --part spacer --condition good";
  if (what.starts_with("membrane")) return "looked_at --module LABEL --part membrane --condition good";
  if (what.starts_with("depth")) return "looked_at --module LABEL --part medium --depth-mm MILLIMETRES";
  return "looked_at --room NAME --condition good";
}

bool is_on_the_edge(std::string_view what) { return what.starts_with("outlets") || what.starts_with("ties"); }

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

/// The module that is lifted most easily: what it weighs drained, in kg.
struct LightModule {
  std::string recipe;
  results::Interval drained_kg;
};

std::optional<LightModule> lightest_module(const WeekInputs& inputs) {
  std::optional<LightModule> lightest;
  for (const StoreGroup& group : store_groups(inputs.roof)) {
    const design::Recipe& recipe = inputs.roof.design->recipes[static_cast<std::size_t>(group.recipe)];
    const checks::ModuleWeights weights =
        checks::compute_weights(inputs.roof.design, group.recipe, design::Placed::flat);
    const results::Interval kg = (1e-6 * recipe.length_mm * recipe.width_mm) * weights.drained_kg_per_m2;
    if (!lightest || kg.likely < lightest->drained_kg.likely) lightest = LightModule{recipe.name, kg};
  }
  return lightest;
}

/// Looking under a module, by what its weight allows.
void fill_lift(const WeekInputs& inputs, const upkeep::LookDue& look, WeekItem& item) {
  item.kind = WeekKind::lift;
  item.caution = upkeep::lifting_caution(inputs.facts);
  const std::optional<LightModule> light = lightest_module(inputs);
  if (!light) return;
  item.where = fmt::format("one of \"{}\", the lightest", light->recipe);
  item.figure = results::figure_with_range(light->drained_kg.likely, light->drained_kg.low, light->drained_kg.high,
                                           "its weight drained");
  item.unit = "kg each, drained";
  item.what = light->drained_kg.likely > upkeep::nobody_from_kg
                  ? "Look at the membrane under one module without lifting it: a torch and a mirror in the gap, or one "
                    "edge raised by two with a board when it is dry. Blisters, damp, roots, marks of feet."
                  : fmt::format("Lift one module and look at the membrane: {}.", look.how);
}

bool fits_the_roof(const WeekInputs& inputs, const upkeep::LookDue& look) {
  if (look.what.starts_with("cover")) return inputs.facts.has_covers || inputs.facts.has_nets;
  if (look.what.starts_with("spacers")) return inputs.facts.has_raised;
  return true;
}

WeekItem look_item(const WeekInputs& inputs, const upkeep::LookDue& look) {
  WeekItem item;
  item.id = "look " + look.what;
  item.kind = WeekKind::look;
  const std::int64_t late = inputs.roof.today - look.due_day;
  item.urgency = late > look.every_days ? 1 : 2;
  item.due = text_from_day(std::max(look.due_day, inputs.roof.today));
  item.what = capital(fmt::format("{}: {}.", look.what, look.how));
  item.where = look.what.starts_with("ceiling") ? "rooms below" : "roof";
  item.why = look.last_day
                 ? fmt::format("Last looked at on {}, {} days ago; every {} days is {}.", text_from_day(*look.last_day),
                               inputs.roof.today - *look.last_day, look.every_days, upkeep::looks_from)
                 : fmt::format("Never noted yet; every {} days is {}.", look.every_days, upkeep::looks_from);
  item.figure = results::figure_without_range(static_cast<double>(look.every_days), std::string(upkeep::looks_from));
  item.unit = "days between looks";
  if (look.what.starts_with("membrane")) fill_lift(inputs, look, item);
  if (is_on_the_edge(look.what)) item.caution = upkeep::edge_caution(inputs.facts);
  item.log_command = log_line(inputs, look_event(look.what));
  return item;
}

}  // namespace

void add_looks(const WeekInputs& inputs, report::WeekAnswer& answer) {
  if (!inputs.roof.has_logbook) {
    WeekItem item;
    item.id = "look round";
    item.kind = WeekKind::look;
    item.urgency = 1;
    item.due = text_from_day(inputs.roof.today);
    item.what = "Go round once: outlets clear, ties and covers whole, plants alive, ceilings below without a stain.";
    item.where = "roof and rooms below";
    item.why = "There is no logbook, so nobody knows when that was last done.";
    item.figure = results::figure_missing("every month to every half year, by the part: common practice, no source");
    item.caution = upkeep::edge_caution(inputs.facts);
    item.log_command = log_line(inputs, "looked_at --condition good");
    answer.items.push_back(std::move(item));
    return;
  }
  std::vector<upkeep::LookDue> never;
  for (const upkeep::LookDue& look : upkeep::looks_due(inputs.roof.records, inputs.roof.today)) {
    if (look.due_day >= inputs.roof.today + days_in_week || !fits_the_roof(inputs, look)) continue;
    if (look.last_day) {
      answer.items.push_back(look_item(inputs, look));
    } else {
      never.push_back(look);
    }
  }
  if (never.empty()) return;
  // All at once would be a wall of duties: one a week, a stain on a ceiling before the rest.
  const auto ceiling = std::find_if(never.begin(), never.end(),
                                    [](const upkeep::LookDue& one) { return one.what.starts_with("ceiling"); });
  WeekItem item = look_item(inputs, ceiling != never.end() ? *ceiling : never.front());
  if (never.size() > 1) {
    item.why +=
        fmt::format(" {} never noted either; they come up one a week.",
                    never.size() == 2 ? "One more look was" : fmt::format("{} more looks were", never.size() - 1));
  }
  answer.items.push_back(std::move(item));
}

void add_storm(const WeekInputs& inputs, report::WeekAnswer& answer) {
  if (inputs.request.gust_km_per_h) {
    const double gust = *inputs.request.gust_km_per_h;
    const report::WindAnswer wind = answer_wind(inputs.roof.design);
    std::vector<std::string> named;
    std::size_t n_below = 0;
    std::size_t n_known = 0;
    for (const report::WindSquareAnswer& square : wind.squares) {
      if (!square.not_shown_above_km_per_h.value) continue;
      ++n_known;
      // By the low end of the range: it is people in the street below.
      const results::Figure& stays = square.not_shown_above_km_per_h;
      if ((stays.range ? stays.range->low : *stays.value) >= gust) continue;
      ++n_below;
      if (named.size() < most_named) named.push_back(square.name);
    }
    WeekItem item;
    item.id = "before storm";
    item.kind = WeekKind::storm;
    item.urgency = 0;
    item.due = text_from_day(inputs.roof.today);
    item.what =
        "Before the storm: clear outlets, mend ties, take nets and loose things down, lay raised modules flat, water "
        "in "
        "the evening unless heavy rain comes too. All steps: houseleek upkeep FILE --before-storm.";
    item.where = named.empty()
                     ? "roof"
                     : fmt::format("first {}{}", report::joined(named),
                                   n_below > named.size() ? fmt::format(" and {} more", n_below - named.size()) : "");
    item.why =
        n_known == 0
            ? fmt::format("Gusts of {:.0f} km/h are announced, and nothing is known of what the modules bear.", gust)
            : fmt::format(
                  "{} of {} squares are not shown to stay in gusts of {:.0f} km/h; the others are only not "
                  "shown to lift.",
                  n_below, n_known, gust);
    item.figure = wind.not_shown_above_km_per_h;
    item.unit = "km/h, above which the weakest is not shown to stay";
    item.caution = upkeep::edge_caution(inputs.facts) + " Go up while it is calm, or not at all.";
    item.log_command = log_line(inputs, "noted --note \"made ready for the storm\"");
    answer.items.push_back(std::move(item));
  }
  if (!inputs.roof.has_logbook) return;
  const upkeep::PartRecords found = part_records_of(inputs.roof.records, *inputs.roof.design);
  const upkeep::StormsAnswer storms = upkeep::find_storms(inputs.roof.records, found, inputs.end_utc_s);
  if (!storms.latest_within_days) return;
  const std::int64_t storm_day = *day_from_text(storms.latest_within_days->substr(0, 10));
  // A look round afterwards, of everything and with a condition, ticks it off.
  for (const logbook::EventRecord& record : inputs.roof.records) {
    const logbook::Event& event = record.event;
    if (record.superseded_by || event.kind != logbook::EventKind::looked_at || event.condition.empty()) continue;
    if (event.part.empty() && event.module.empty() && event.container.empty() && civil_day_of(event) >= storm_day)
      return;
  }
  WeekItem item;
  item.id = "after storm " + *storms.latest_within_days;
  item.kind = WeekKind::storm;
  item.urgency = 0;
  item.due = text_from_day(inputs.roof.today);
  item.what =
      "After the storm: ceilings first, then outlets, what moved, ties, covers. All steps: houseleek upkeep FILE "
      "--after-storm.";
  item.where = "rooms below, then the roof";
  item.why = fmt::format("A storm is logged on {}, and no look round since.", *storms.latest_within_days);
  item.figure =
      results::figure_without_range(storms.n_after_storms, "counted in the logbook; people look after storms");
  item.unit = "failures found within 14 days after storms so far";
  item.caution = upkeep::edge_caution(inputs.facts);
  item.log_command = log_line(inputs, "looked_at --condition good");
  answer.items.push_back(std::move(item));
}

void add_readings(const WeekInputs& inputs, report::WeekAnswer& answer) {
  for (const design::Trial& trial : inputs.roof.design->trials) {
    if (trial.readings != design::TrialReadings::by_hand || trial.places.empty()) continue;
    if (!trial.first_day || !trial.last_day) continue;
    std::size_t n_read_today = 0;
    for (const logbook::EventRecord& record : inputs.roof.records) {
      const logbook::Event& event = record.event;
      if (record.superseded_by || event.kind != logbook::EventKind::read_off) continue;
      if (civil_day_of(event) == inputs.roof.today) ++n_read_today;
    }
    const std::int64_t from = inputs.roof.today + (n_read_today >= trial.places.size() ? 1 : 0);
    const std::int64_t first = std::max(*trial.first_day, from);
    const std::int64_t last = std::min(*trial.last_day, inputs.roof.today + days_in_week - 1);
    if (first > last) continue;
    std::vector<std::string> places;
    std::string readings;
    for (const design::TrialPlace& place : trial.places) {
      places.push_back(place.name);
      readings +=
          fmt::format(" {}=DEGREES", place.name.find(' ') == std::string::npos ? place.name : "\"" + place.name + "\"");
    }
    const double n_days = static_cast<double>(last - first + 1);
    const double n_looks =
        trial.measure == design::TrialMeasure::swing || trial.measure == design::TrialMeasure::lag ? 2.0 : 1.0;
    const auto clock = [](double hour) {
      const int minutes = static_cast<int>(60.0 * hour + 0.5);
      return fmt::format("{}:{:02}", minutes / 60, minutes % 60);
    };
    const bool is_minimum = trial.measure == design::TrialMeasure::minimum;
    WeekItem item;
    item.id = "read " + trial.name;
    item.kind = WeekKind::read_off;
    item.urgency = first == inputs.roof.today ? 0 : 1;
    item.due = text_from_day(first);
    item.what = fmt::format("Read the thermometer at {} {}.", report::joined(places),
                            n_looks > 1.0 ? fmt::format("every day at {} and {} (standard time)",
                                                        clock(trial.morning_hour), clock(trial.afternoon_hour))
                                          : fmt::format("every day at {} (standard time)",
                                                        clock(is_minimum ? trial.morning_hour : trial.afternoon_hour)));
    item.where = report::joined(places);
    item.why = fmt::format("The trial \"{}\" runs until {}; a day that is missing cannot be read later.", trial.name,
                           text_from_day(*trial.last_day));
    item.figure = results::figure_without_range(n_days * n_looks * static_cast<double>(places.size()),
                                                "days, looks a day and places, counted");
    item.unit = "readings this week";
    const std::string file = inputs.roof.has_logbook ? inputs.request.file : "my-roof.houseleek";
    item.log_command = fmt::format("houseleek trial read {}{}", file, readings);
    answer.items.push_back(std::move(item));
  }
}

}  // namespace houseleek::studies
