// How plants are raised: what comes up or roots, what lives until it can be planted out, and how long each takes.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/toml_fields.hpp"
#include "catalogue/plant.hpp"
#include "catalogue/read_figure.hpp"

namespace houseleek::catalogue {

/// One way of raising plants of some groups.
struct Raising {
  RaisedFrom way = RaisedFrom::seed;
  std::vector<std::string> groups;             // of plants; empty: every group
  Spread taking_frac;                          // of what was sown or struck: comes up, or roots
  Spread keeping_frac;                         // of those: alive when ready to be planted out
  Spread taken_after_days;                     // up, or rooted
  std::optional<Spread> potted_on_after_days;  // counted from the start, as all of them; absent: not potted on
  Spread ready_after_days;                     // to be planted out
  int first_month = 0;                         // to begin in, north of the equator
  int last_month = 0;                          // may be before the first: over the turn of the year
  bool operator==(const Raising&) const = default;
};

/// Every figure of a way of raising: its key, limits and words; one list for reading, counting and showing.
struct RaisingProperty {
  NumberRule rule;
  std::string_view words = "";
  Spread Raising::*required = nullptr;
  std::optional<Spread> Raising::*optional = nullptr;
};
[[nodiscard]] std::span<const RaisingProperty> raising_properties();
[[nodiscard]] const Spread* find_property(const Raising& raising, const RaisingProperty& property);

/// One [[raising]].
[[nodiscard]] Raising read_raising(FieldReader& reader, const TableView& table, const FigureContext& context,
                                   std::span<const PlantGroup> groups);

/// The word of the catalogue and of answers: seed, cuttings ...
[[nodiscard]] std::string_view text_from_way(RaisedFrom way);

/// How plants of a group are raised in a way: the entry that names the group before the one for every group; nullptr:
/// nothing is known.
[[nodiscard]] const Raising* find_raising(std::span<const Raising> all, RaisedFrom way, std::string_view group);

/// True if the month (1 to 12) is one to begin in; half a year later south of the equator.
[[nodiscard]] bool begins_in(const Raising& raising, int month, Hemisphere hemisphere);

/// True if a month lies in a span of months that may run over the turn of the year, north of the equator as written.
[[nodiscard]] bool is_month_within(int first_month, int last_month, int month, Hemisphere hemisphere);

}  // namespace houseleek::catalogue
