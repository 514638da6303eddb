// From a logbook to lives: which parts were put in when, how they were found, and what became of them.
#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/event.hpp"
#include "stats/weibull_lives.hpp"

namespace houseleek::upkeep {

/// A part that every module of a recipe has, as the design tells it.
struct RecipePart {
  std::string recipe;
  std::string part;      // one of the words of part_word
  std::string material;  // empty: the design does not say
};

/// What a person calls a part in one of few words: tie, cover sheet, net, medium, filter sheet, core, spacer. Anything
/// else stays as it was written.
[[nodiscard]] std::string part_word(std::string_view written);

/// One part, or several alike that were put in together, until it had to be replaced.
struct PartRecord {
  std::string module;
  std::string recipe;
  std::string part;
  std::string material;
  double n_parts = 1.0;
  std::int64_t put_in_utc_s = 0;
  std::int64_t last_in_use_utc_s = 0;                       // seen in use then; at first when it was put in
  std::optional<std::int64_t> found_failed_utc_s;           // found torn or gone, or replaced as worn out
  std::optional<std::int64_t> taken_out_utc_s;              // in good order: its life is known no further
  std::optional<std::int64_t> torn_but_not_replaced_utc_s;  // of several: seen torn, how many was not said
};

/// An event that tells of a part and of which nothing could be made.
struct LeftOut {
  std::int64_t number = 0;
  std::string why;
};

struct PartRecords {
  std::vector<PartRecord> parts;
  std::vector<LeftOut> left_out;
  double n_modules = 0.0;
  std::optional<std::int64_t> first_utc_s;  // of all events that stand
  std::optional<std::int64_t> last_utc_s;
  std::size_t n_events = 0;
};

/// Goes through the events in order of their time; superseded and withdrawn ones are left out.
/// - `made` puts in all parts of the module's recipe; with a part, that part alone, `count` pieces of it, of the material
///   named as item.
/// - `looked_at` good or worn: in use then; without a part all parts of the module, without a module all modules. Torn or
///   gone, with a part: failed between the look before and this one.
/// - `replaced` or `repaired` as torn, gone, worn, or without a condition: failed, and a new part in its place from
///   then; as good: taken out in good order. `count` pieces, the oldest first; else all.
[[nodiscard]] PartRecords find_part_records(std::span<const logbook::EventRecord> records,
                                            std::span<const RecipePart> recipe_parts);

/// A record as the statistics take it. Age in years of 365.25 days.
[[nodiscard]] stats::PartLife life_of(const PartRecord& record);

/// True while it lies on the roof at this moment.
[[nodiscard]] bool is_in_use(const PartRecord& record);

[[nodiscard]] double years_between(std::int64_t from_utc_s, std::int64_t to_utc_s);

}  // namespace houseleek::upkeep
