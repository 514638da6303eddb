// From a logbook to lives: which parts were put in when, how they were found, and what became of them.
#include "upkeep/part_lives.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "base/nearest_name.hpp"

namespace houseleek::upkeep {
namespace {

using logbook::Event;
using logbook::EventKind;
using logbook::EventRecord;

constexpr double seconds_in_year = 365.25 * 86400.0;
/// What failed on the day on which it was put in lived about half of it.
constexpr double half_a_day_years = 0.5 / 365.25;

struct PartWords {
  std::string_view word;
  std::string_view others;  // parted by commas, each with one before and behind it
};
constexpr PartWords known_parts[] = {
    {"tie", ",tie,ties,string,cord,wire,knot,knots,"},
    {"cover sheet", ",cover,covers,cover sheet,cover sheets,sheet,cloth,"},
    {"net", ",net,nets,shade net,"},
    {"medium", ",medium,growing medium,soil,mix,"},
    {"filter sheet", ",filter,filter sheet,filter sheets,felt,"},
    {"core", ",core,cores,"},
    {"spacer", ",spacer,spacers,spacer set,slat,slats,foot,feet,"},
};

bool is_end(const Event& event) { return event.condition != "good"; }

class Reader {
 public:
  Reader(std::span<const RecipePart> recipe_parts, PartRecords& found) : recipe_parts_(recipe_parts), found_(found) {}

  void take(const EventRecord& record) {
    record_ = &record;
    switch (record.event.kind) {
      case EventKind::made:
        return take_made(record.event);
      case EventKind::looked_at:
        return take_look(record.event);
      case EventKind::repaired:
      case EventKind::replaced:
        return take_replaced(record.event);
      default:
        return;
    }
  }

  /// Of several that were seen torn and not replaced since, one at least has failed.
  void finish() {
    for (std::size_t i = 0; i < found_.parts.size(); ++i) {
      PartRecord& rest = found_.parts[i];
      if (!is_in_use(rest) || !rest.torn_but_not_replaced_utc_s) continue;
      PartRecord failed = rest;
      failed.n_parts = 1.0;
      failed.found_failed_utc_s = rest.torn_but_not_replaced_utc_s;
      rest.n_parts -= 1.0;
      rest.torn_but_not_replaced_utc_s.reset();
      failed.torn_but_not_replaced_utc_s.reset();
      found_.parts.push_back(std::move(failed));
    }
  }

 private:
  void leave_out(std::string why) { found_.left_out.push_back({record_->number, std::move(why)}); }

  void put_in(const std::string& module, const std::string& recipe, const RecipePart& part, double n_parts,
              std::int64_t at_utc_s) {
    PartRecord made;
    made.module = module;
    made.recipe = recipe;
    made.part = part.part;
    made.material = part.material;
    made.n_parts = n_parts;
    made.put_in_utc_s = made.last_in_use_utc_s = at_utc_s;
    found_.parts.push_back(std::move(made));
  }

  void take_made(const Event& event) {
    const double count = event.count.value_or(1.0);
    if (count <= 0.0) return leave_out("made, but none of it");
    if (!event.part.empty()) return take_made_part(event, count);
    found_.n_modules += count;
    std::string recipe = event.recipe;
    if (recipe.empty() && is_one_recipe()) recipe = recipe_parts_.front().recipe;
    if (recipe.empty()) return leave_out("a module was made, but not said by which recipe: add --recipe");
    for (const RecipePart& part : recipe_parts_) {
      if (part.recipe == recipe) put_in(event.module, recipe, part, count, event.at.utc_s);
    }
  }

  /// Pieces of a part that are counted; they take the place of the one that came with the module on that day.
  void take_made_part(const Event& event, double count) {
    RecipePart part{event.recipe, part_word(event.part), event.item};
    for (auto it = found_.parts.begin(); it != found_.parts.end(); ++it) {
      if (it->module != event.module || it->part != part.part || !is_in_use(*it)) continue;
      if (part.material.empty()) part.material = it->material;
      if (part.recipe.empty()) part.recipe = it->recipe;
      if (it->last_in_use_utc_s == it->put_in_utc_s && event.at.utc_s - it->put_in_utc_s < 86400) {
        found_.parts.erase(it);
        break;
      }
    }
    put_in(event.module, part.recipe, part, count, event.at.utc_s);
  }

  [[nodiscard]] bool is_one_recipe() const {
    return !recipe_parts_.empty() &&
           std::all_of(recipe_parts_.begin(), recipe_parts_.end(),
                       [&](const RecipePart& part) { return part.recipe == recipe_parts_.front().recipe; });
  }

  /// Parts in use that an event is about, the oldest first.
  [[nodiscard]] std::vector<std::size_t> parts_of(const Event& event) const {
    const std::string word = part_word(event.part);
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < found_.parts.size(); ++i) {
      const PartRecord& one = found_.parts[i];
      if (!is_in_use(one) || (!event.module.empty() && one.module != event.module)) continue;
      if (!event.recipe.empty() && one.recipe != event.recipe) continue;
      if (!event.part.empty() && one.part != word) continue;
      places.push_back(i);
    }
    // An item tells two layers of one kind apart; where it names something new it is the material put in.
    const bool is_told_apart = std::any_of(places.begin(), places.end(), [&](std::size_t i) {
      return folded_name(found_.parts[i].material) == folded_name(event.item);
    });
    if (!event.item.empty() && is_told_apart) {
      std::erase_if(places,
                    [&](std::size_t i) { return folded_name(found_.parts[i].material) != folded_name(event.item); });
    }
    std::stable_sort(places.begin(), places.end(), [&](std::size_t a, std::size_t b) {
      return found_.parts[a].put_in_utc_s < found_.parts[b].put_in_utc_s;
    });
    return places;
  }

  void take_look(const Event& event) {
    if (event.condition.empty()) return;
    // A look at something that is no module: a room's ceiling, a tub, an outlet.
    const bool is_elsewhere = !event.room.empty() || !event.container.empty() || !event.batch.empty();
    if (is_elsewhere || (event.module.empty() && !event.square.empty())) return;
    const std::vector<std::size_t> places = parts_of(event);
    if (event.condition == "good" || event.condition == "worn") {
      for (const std::size_t i : places) {
        found_.parts[i].last_in_use_utc_s = std::max(found_.parts[i].last_in_use_utc_s, event.at.utc_s);
      }
      return;
    }
    if (event.part.empty()) return leave_out("something was found torn or gone, but not said which part: add --part");
    if (event.module.empty())
      return leave_out("a part was found torn or gone, but not said on which module: add --module");
    if (places.empty()) return leave_out(fmt::format("no {} is known on module {}", event.part, event.module));
    PartRecord& oldest = found_.parts[places.front()];
    if (oldest.n_parts == 1.0) {
      oldest.found_failed_utc_s = event.at.utc_s;
    } else if (!oldest.torn_but_not_replaced_utc_s) {
      oldest.torn_but_not_replaced_utc_s = event.at.utc_s;
    }
  }

  void take_replaced(const Event& event) {
    if (event.module.empty()) return leave_out("a part was replaced, but not said on which module: add --module");
    std::vector<std::size_t> places = parts_of(event);
    double left = event.count.value_or(std::numeric_limits<double>::infinity());
    const std::string word = part_word(event.part);
    if (places.empty()) {
      // Found torn before and put in only now.
      const auto before = std::find_if(found_.parts.rbegin(), found_.parts.rend(), [&](const PartRecord& one) {
        return one.module == event.module && one.part == word && one.found_failed_utc_s;
      });
      if (before == found_.parts.rend()) {
        return leave_out(fmt::format("no {} is known on module {}: log when it was made", event.part, event.module));
      }
      const PartRecord old = *before;
      return put_in(event.module, old.recipe, {old.recipe, word, material_after(event, old)}, old.n_parts,
                    event.at.utc_s);
    }
    for (const std::size_t i : places) {
      if (left <= 0.0) break;
      const PartRecord old = found_.parts[i];
      const double n_parts = std::min(left, old.n_parts);
      left -= n_parts;
      end_parts(i, event, n_parts);
      put_in(event.module, old.recipe, {old.recipe, word, material_after(event, old)}, n_parts, event.at.utc_s);
    }
    if (left > 0.0 && event.count) {
      leave_out(fmt::format("{:.0f} more were replaced than are known on module {}", left, event.module));
    }
  }

  /// `n_parts` of a record end; the rest lives on.
  void end_parts(std::size_t place, const Event& event, double n_parts) {
    PartRecord ended = found_.parts[place];
    ended.n_parts = n_parts;
    if (is_end(event)) {
      const std::optional<std::int64_t>& torn = ended.torn_but_not_replaced_utc_s;
      ended.found_failed_utc_s = torn && *torn < event.at.utc_s ? *torn : event.at.utc_s;
    } else {
      ended.taken_out_utc_s = event.at.utc_s;
      ended.last_in_use_utc_s = event.at.utc_s;
    }
    ended.torn_but_not_replaced_utc_s.reset();
    PartRecord& rest = found_.parts[place];
    if (rest.n_parts > n_parts) {
      rest.n_parts -= n_parts;
      // Whoever replaces some of them has seen the others.
      rest.last_in_use_utc_s = event.at.utc_s;
      rest.torn_but_not_replaced_utc_s.reset();
      found_.parts.push_back(std::move(ended));
    } else {
      rest = std::move(ended);
    }
  }

  [[nodiscard]] static std::string material_after(const Event& event, const PartRecord& old) {
    return event.item.empty() ? old.material : event.item;
  }

  std::span<const RecipePart> recipe_parts_;
  PartRecords& found_;
  const EventRecord* record_ = nullptr;
};

}  // namespace

std::string part_word(std::string_view written) {
  const std::string folded = folded_name(written);
  for (const PartWords& part : known_parts) {
    if (part.others.find(fmt::format(",{},", folded)) != std::string_view::npos) return std::string(part.word);
  }
  return std::string(written);
}

double years_between(std::int64_t from_utc_s, std::int64_t to_utc_s) {
  return static_cast<double>(to_utc_s - from_utc_s) / seconds_in_year;
}

bool is_in_use(const PartRecord& record) { return !record.found_failed_utc_s && !record.taken_out_utc_s; }

stats::PartLife life_of(const PartRecord& record) {
  stats::PartLife life;
  life.n_parts = record.n_parts;
  life.alive_at_years = years_between(record.put_in_utc_s, record.last_in_use_utc_s);
  if (!record.found_failed_utc_s) return life;
  life.failed_by_years = std::max(half_a_day_years, years_between(record.put_in_utc_s, *record.found_failed_utc_s));
  // Seen in use and found failed on one day: within it.
  life.alive_at_years = std::min(life.alive_at_years, life.failed_by_years - half_a_day_years);
  return life;
}

PartRecords find_part_records(std::span<const EventRecord> records, std::span<const RecipePart> recipe_parts) {
  std::vector<const EventRecord*> standing;
  for (const EventRecord& record : records) {
    if (!record.superseded_by && record.event.kind != EventKind::withdrawn) standing.push_back(&record);
  }
  // A module is made before it is looked at on the same noon; events of one moment otherwise as they were noted.
  const auto rank = [](const EventRecord* record) { return record->event.kind == EventKind::made ? 0 : 1; };
  std::stable_sort(standing.begin(), standing.end(), [&](const EventRecord* a, const EventRecord* b) {
    if (a->event.at.utc_s != b->event.at.utc_s) return a->event.at.utc_s < b->event.at.utc_s;
    return rank(a) < rank(b);
  });
  PartRecords found;
  found.n_events = standing.size();
  Reader reader(recipe_parts, found);
  for (const EventRecord* record : standing) reader.take(*record);
  reader.finish();
  if (!standing.empty()) {
    found.first_utc_s = standing.front()->event.at.utc_s;
    found.last_utc_s = standing.back()->event.at.utc_s;
  }
  return found;
}

}  // namespace houseleek::upkeep
