// What was done, seen or measured on the roof, one event a time: plain values, nothing judged.
#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "base/civil_time.hpp"

namespace houseleek::logbook {

enum class EventKind {
  made,
  watered,
  fed,
  topped_up,
  weighed,
  looked_at,
  repaired,
  replaced,
  raised,
  lowered,
  read_off,
  flowered,
  harvested,
  died,
  photographed,
  sown,
  germinated,
  potted_on,
  lost,
  ready,
  planted_out,
  given_away,
  stock_in,
  stock_out,
  billed,
  rained,
  storm,
  noted,
  withdrawn  // an earlier event never happened
};

/// One event. A text that is empty and a number that is not there were not noted; which a kind wants and which it may
/// have stands in logbook/event_fields.hpp. Names are the person's own words, or those of the design.
struct Event {
  EventKind kind = EventKind::noted;
  CivilMoment at;
  std::string zone;  // of the place, whose clocks `at` shows

  // What it is about.
  std::string module;
  std::string square;
  std::string recipe;
  std::string room;
  std::string container;
  std::string batch;
  std::string part;  // of a module: cover sheet, tie, core, spacer
  std::string item;  // what stock, a bill or a cause is: coir, electricity, wind

  std::string condition;  // good, worn, torn, gone
  std::string wetness;    // dry, drained, soaked
  std::string currency;   // three letters
  std::string photo;      // a file's name
  std::string who;        // noted it
  std::string note;

  std::optional<double> count;
  std::optional<double> water_l;
  std::optional<double> duration_min;
  std::optional<double> mass_kg;
  std::optional<double> volume_l;
  std::optional<double> length_m;
  std::optional<double> area_m2;
  std::optional<double> depth_mm;
  std::optional<double> height_mm;
  std::optional<double> temperature_c;
  std::optional<double> conductivity_ms_per_cm;
  std::optional<double> vigour;  // 1 poor to 5 lush
  std::optional<double> cover_percent;
  std::optional<double> cost;  // in `currency`
  std::optional<double> energy_kwh;
  std::optional<double> volume_m3;
  std::optional<double> gust_km_per_h;
  std::optional<double> rain_mm;
  std::optional<double> hail_mm;  // across

  // The days a bill is for, since 1970; both belong to it.
  std::optional<std::int64_t> first_day;
  std::optional<std::int64_t> last_day;
  bool operator==(const Event&) const = default;
};

/// An event as the logbook holds it. Nothing is ever taken out: a correction is a new event that takes the old one's
/// place.
struct EventRecord {
  std::int64_t number = 0;       // from 1, in the order of noting
  std::int64_t noted_utc_s = 0;  // when it came into the logbook
  std::optional<std::int64_t> supersedes;
  std::optional<std::int64_t> superseded_by;
  Event event;
  bool operator==(const EventRecord&) const = default;
};

}  // namespace houseleek::logbook
