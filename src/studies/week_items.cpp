// What to water, feed and buy this week, and what other parts of the program add.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"
#include "base/number_words.hpp"
#include "climate/calendar.hpp"
#include "logbook/event_fields.hpp"
#include "planting/batches.hpp"
#include "report/words.hpp"
#include "results/interval.hpp"
#include "studies/upkeep.hpp"
#include "studies/water_parts.hpp"
#include "studies/week_parts.hpp"

namespace houseleek::studies {
namespace {

using report::StoreNow;
using report::WeekItem;
using report::WeekKind;

constexpr double least_parts_to_buy = 1.0;  // expected within two months
constexpr int days_between_feeds = 14;

/// A1 to A14 and B1 to B4: runs of labels that count on.
std::string short_labels(const StoreNow& store) {
  if (store.labels.empty()) return fmt::format("{} {}{}", store.count, store.what, store.count == 1 ? "" : "s");
  const auto split = [](const std::string& label) {
    std::size_t at = label.size();
    while (at > 0 && label[at - 1] >= '0' && label[at - 1] <= '9') --at;
    const bool counts = at < label.size() && label.size() - at < 9;
    return std::pair{label.substr(0, at), counts ? std::stoi(label.substr(at)) : -1};
  };
  std::vector<std::string> runs;
  for (std::size_t i = 0; i < store.labels.size();) {
    std::size_t last = i;
    const auto [name, first] = split(store.labels[i]);
    while (first >= 0 && last + 1 < store.labels.size() &&
           split(store.labels[last + 1]) == std::pair{name, first + static_cast<int>(last + 1 - i)}) {
      ++last;
    }
    // Two in a row are named; from three on the run is.
    if (last - i >= 2) {
      runs.push_back(fmt::format("{} to {}", store.labels[i], store.labels[last]));
    } else {
      for (std::size_t k = i; k <= last; ++k) runs.push_back(store.labels[k]);
    }
    i = last + 1;
  }
  return report::joined(runs);
}

/// Litres that the person would give each: the recipe's own, else until it drips.
results::Figure litres_of(const StoreNow& store, bool is_due) {
  if (store.litres_usual.value) return store.litres_usual;
  return is_due ? store.litres_each : store.litres_each_when_due;
}

std::string quoted(const std::string& text) { return text.find(' ') == std::string::npos ? text : "\"" + text + "\""; }

/// Month of the north that has the same season.
int northern_month(const WeekInputs& inputs) { return inputs.is_southern ? (inputs.month + 5) % 12 + 1 : inputs.month; }

/// In wet months days without rain are not to be expected.
std::string usual_rain(const WeekInputs& inputs) {
  constexpr double wet_mm_per_week = 5.0;
  const auto& normals = inputs.roof.design->climate.normals;
  if (!normals) return "";
  const auto month = static_cast<std::size_t>(inputs.month - 1);
  const double mm = normals->rain_mm[month] * days_in_week / climate::n_days_in_month[month];
  return mm < wet_mm_per_week ? "" : fmt::format(" {:.0f} mm a week are usual now; after that it need not be.", mm);
}

std::optional<std::int64_t> last_event(const WeekInputs& inputs, logbook::EventKind kind,
                                       const std::string& container) {
  std::optional<std::int64_t> last;
  for (const logbook::EventRecord& record : inputs.roof.records) {
    if (record.superseded_by || record.event.kind != kind) continue;
    if (folded_name(record.event.container) != folded_name(container)) continue;
    last = std::max(last.value_or(0), civil_day_of(record.event));
  }
  return last;
}

/// A capital first, a full stop last.
std::string sentence(std::string text) {
  if (text.empty()) return text;
  if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  if (text.back() != '.') text += '.';
  return text;
}

/// Reminders of batches, as work of the week.
std::vector<WorkDue> work_of_batches(const StoreInputs& roof) {
  std::vector<WorkDue> work;
  const planting::BatchRecords found = planting::find_batches(roof.records, roof.catalogue);
  for (const planting::Due& due : planting::due_of_batches(found.batches, roof.catalogue, roof.today)) {
    WorkDue one;
    one.day = due.day;
    one.kind = report::WeekKind::pot_on;
    one.what = sentence(due.what);
    one.where = due.batch;
    one.why = sentence(due.why);
    one.figure = results::figure_without_range(due.n_standing, "counted in the logbook");
    one.unit = "plants";
    // How many came up, nobody knows before they are counted.
    const bool is_counted = due.event == logbook::EventKind::germinated;
    one.log_command = fmt::format("{} --batch {} --count {}", logbook::rule_of(due.event).word, quoted(due.batch),
                                  is_counted ? std::string("COUNT") : fmt::format("{:.0f}", due.n_standing));
    work.push_back(std::move(one));
  }
  return work;
}

}  // namespace

void add_watering(const WeekInputs& inputs, const std::vector<StoreNow>& stores, report::WeekAnswer& answer) {
  for (const StoreNow& store : stores) {
    const double likely = *store.can_wait_days.value;
    const double wait = std::floor(likely + 1e-9);
    const std::string name = store.what == "module" ? store.name : fmt::format("{} (container)", store.name);
    if (store.state == "not_known" || likely >= days_in_week) {
      answer.can_wait.push_back(store.state != "not_known" && store.can_wait_days.range->low < days_in_week
                                    ? fmt::format("{} Feel it once this week.", store.statement)
                                    : store.statement);
    } else {
      WeekItem item;
      item.id = fmt::format("water {} {}", store.name, store.form);
      item.kind = WeekKind::water;
      const bool is_due = store.state == "wants_water";
      item.urgency = is_due ? 0 : 1;
      item.due = text_from_day(inputs.roof.today + static_cast<std::int64_t>(is_due ? 0.0 : wait));
      const results::Figure litres = litres_of(store, is_due);
      const double each_l = *litres.value;
      const double all_l = each_l * store.count;
      const double cans = std::ceil(all_l / inputs.request.can_l);
      item.what =
          fmt::format("Water {}{}: {:.0f} l {}, {:.0f} {} of {:g} l.",
                      store.count > 1 ? fmt::format("the {} modules of ", store.count) : std::string(), name, each_l,
                      store.count > 1 ? "each" : "in all", cans, cans == 1.0 ? "can" : "cans", inputs.request.can_l);
      item.where = short_labels(store);
      if (is_due) {
        item.why = fmt::format("About {:.0f} % of its store is left, and its plants want some below {:.0f} %{}.",
                               100.0 * std::max(0.0, *store.store_frac.value), 100.0 * *store.wants_below_frac.value,
                               store.litres_usual.value ? fmt::format("; until it drips it would take {:.0f} l each",
                                                                      *store.litres_each.value)
                                                        : "");
      } else {
        item.why = fmt::format(
            "Without rain it is down to {:.0f} % of its store in about {} ({:.0f} to {:.0f}); "
            "feel it before you carry.",
            100.0 * *store.wants_below_frac.value, counted(std::max(1.0, wait), "day", "days"),
            std::floor(store.can_wait_days.range->low), std::floor(store.can_wait_days.range->high));
        item.why += usual_rain(inputs);
      }
      item.figure = minutes_for(results::exactly(all_l), inputs.roof.records);
      item.unit = "minutes with the cans";
      item.log_command =
          log_line(inputs, store.what == "module"
                               ? fmt::format("watered --recipe {} --count {} --water-l {:.0f} --duration-min MINUTES",
                                             quoted(store.name), store.count, all_l)
                               : fmt::format("watered --container {} --water-l {:.0f}", quoted(store.name), all_l));
      answer.items.push_back(std::move(item));
    }
    for (const std::string& note : store.notes) {
      if (!note.starts_with("First weeks")) continue;
      WeekItem item;
      item.id = fmt::format("young {} {}", store.name, store.form);
      item.kind = WeekKind::cover;
      item.urgency = 1;
      item.due = text_from_day(inputs.roof.today);
      item.what = fmt::format("Keep the new {} from drying out; shade them in hot sun.",
                              store.what == "module" ? "modules" : "plants");
      item.where = store.name;
      item.why = note;
      item.figure = results::figure_missing("by the finger: the top must not dry right through");
      item.unit = "";
      item.log_command =
          log_line(inputs, fmt::format("watered --recipe {} --water-l LITRES --note \"new ones\"", quoted(store.name)));
      answer.items.push_back(std::move(item));
    }
  }
}

void add_parts(const WeekInputs& inputs, report::WeekAnswer& answer) {
  if (!inputs.roof.has_logbook) return;
  const upkeep::PartRecords found = part_records_of(inputs.roof.records, *inputs.roof.design);
  for (const PartLives& part : judge_part_lives(found, *inputs.roof.design, inputs.roof.catalogue, inputs.end_utc_s)) {
    if (part.n_in_use <= 0.0 || part.life.months.size() < 2) continue;
    const upkeep::Replacements& a = part.life.months[0];
    const upkeep::Replacements& b = part.life.months[1];
    const double expected = a.expected + b.expected;
    if (expected < least_parts_to_buy) continue;
    // Bought, found or used up since the first event; lengths and pieces are not turned into one another.
    std::optional<std::int64_t> last_bought;
    std::string bought;
    for (const logbook::EventRecord& record : inputs.roof.records) {
      const logbook::Event& event = record.event;
      if (record.superseded_by || event.kind != logbook::EventKind::stock_in) continue;
      if (folded_name(event.item) != folded_name(part.material) && folded_name(event.item) != folded_name(part.part))
        continue;
      const std::int64_t day = civil_day_of(event);
      if (last_bought && day < *last_bought) continue;
      last_bought = day;
      bought = event.length_m   ? fmt::format("{:g} m", *event.length_m)
               : event.count    ? fmt::format("{:g}", *event.count)
               : event.area_m2  ? fmt::format("{:g} m2", *event.area_m2)
               : event.mass_kg  ? fmt::format("{:g} kg", *event.mass_kg)
               : event.volume_l ? fmt::format("{:g} l", *event.volume_l)
                                : std::string("some");
    }
    // Bought within two months: enough was thought of.
    if (last_bought && inputs.roof.today - *last_bought < 60) continue;
    WeekItem item;
    const std::string name = part.material.empty() ? part.part : fmt::format("{} ({})", part.part, part.material);
    item.id = "buy " + name;
    item.kind = WeekKind::buy;
    item.urgency = 2;
    item.due = text_from_day(inputs.roof.today + days_in_week - 1);
    item.what = fmt::format("Have new ones at hand, about {:.0f} ({:.0f} to {:.0f}): {}.", expected,
                            std::min(expected, a.low + b.low), std::max(expected, a.high + b.high), name);
    item.where = last_bought ? fmt::format("in the shed: {} noted on {}, what is left of it is not known", bought,
                                           text_from_day(*last_bought))
                             : "in the shed: none noted so far";
    item.why = fmt::format("So many wear out in two months, by {} here and what was believed.",
                           counted(part.life.n_failures, "failure", "failures"));
    item.figure =
        results::figure_with_range(expected, std::min(expected, a.low + b.low), std::max(expected, a.high + b.high),
                                   "low and high ends of both months added up");
    item.unit = "parts in two months";
    item.log_command = log_line(inputs, fmt::format("stock_in --item {} --count COUNT",
                                                    quoted(part.material.empty() ? part.part : part.material)));
    answer.items.push_back(std::move(item));
  }
}

void add_feeding(const WeekInputs& inputs, report::WeekAnswer& answer) {
  const int month = northern_month(inputs);
  const auto add = [&](const std::string& id, const std::string& what, const std::string& where, const std::string& why,
                       const std::string& event) {
    WeekItem item;
    item.id = id;
    item.kind = WeekKind::feed;
    item.urgency = 2;
    item.due = text_from_day(inputs.roof.today + days_in_week - 1);
    item.what = what;
    item.where = where;
    item.why = why;
    item.figure = results::figure_missing("common practice, no source; as the packet says, rather less");
    item.log_command = log_line(inputs, event);
    answer.items.push_back(std::move(item));
  };
  const std::optional<std::int64_t> fed = last_event(inputs, logbook::EventKind::fed, "");
  const bool is_spring = month == 3 || month == 4;
  if (inputs.roof.has_logbook && is_spring && (!fed || inputs.roof.today - *fed > 180)) {
    add("feed modules", "Strew a little compost, or a slow feed at half of what its packet says.", "modules",
        fed ? fmt::format("Last fed on {}; spring is when they grow (common practice, no source).", text_from_day(*fed))
            : "No feeding is logged yet; spring is when they grow (common practice, no source).",
        "fed --volume-l LITRES");
  }
  for (const design::Container& container : inputs.roof.design->containers) {
    const catalogue::Plant* plant = plant_in(container, inputs.roof.catalogue);
    const bool is_eaten = plant != nullptr && !plant->eaten.empty();
    if (!inputs.roof.has_logbook || !is_eaten || month < 4 || month > 9) continue;
    const std::optional<std::int64_t> last = last_event(inputs, logbook::EventKind::fed, container.name);
    if (last && inputs.roof.today - *last < days_between_feeds) continue;
    add("feed " + container.name, fmt::format("Feed {} with a liquid feed, after watering.", container.name),
        container.name,
        "Fruit and vegetables in a bag want some every one to two weeks while they grow (common practice, no source).",
        fmt::format("fed --container {} --volume-l LITRES", quoted(container.name)));
  }
}

void add_more(const WeekInputs& inputs, report::WeekAnswer& answer) {
  std::vector<WorkDue> all = work_of_batches(inputs.roof);
  all.insert(all.end(), inputs.request.more.begin(), inputs.request.more.end());
  for (const WorkDue& due : all) {
    if (due.day >= inputs.roof.today + days_in_week) continue;
    WeekItem item;
    item.id = fmt::format("{} {} {}", report::week_kind_word(due.kind), due.where, due.what);
    item.kind = due.kind;
    item.urgency = due.day <= inputs.roof.today ? 1 : 2;
    item.due = text_from_day(due.day);
    item.what = due.what;
    item.where = due.where;
    item.why = due.why;
    item.figure = due.figure;
    item.unit = due.unit;
    item.caution = due.caution;
    item.log_command = log_line(inputs, due.log_command);
    answer.items.push_back(std::move(item));
  }
}

}  // namespace houseleek::studies
