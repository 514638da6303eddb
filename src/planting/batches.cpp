// Batches of seedlings and cuttings as the logbook tells them.
#include "planting/batches.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/civil_time.hpp"
#include "base/nearest_name.hpp"

namespace houseleek::planting {
namespace {

using catalogue::Plant;
using catalogue::RaisedFrom;
using logbook::Event;
using logbook::EventKind;
using logbook::EventRecord;

std::int64_t day_of(const Event& event) { return (event.at.utc_s + event.at.offset_s) / n_seconds_in_civil_day; }

bool contains(const std::string& text, const std::string& part) {
  return !part.empty() && text.find(part) != std::string::npos;
}

/// The only plant whose botanical or common name stands in the batch's name; of names within names the longest.
const Plant* plant_named_in(const catalogue::Catalogue& catalogue, const std::string& batch_name) {
  const std::string name = folded_name(batch_name);
  const Plant* found = nullptr;
  std::size_t longest = 0;
  bool is_only = true;
  for (const Plant& plant : catalogue.plants) {
    std::size_t length = 0;
    for (const std::string& one : {plant.name, plant.common_name}) {
      const std::string folded = folded_name(one);
      if (contains(name, folded)) length = std::max(length, folded.size());
    }
    if (length == 0 || length < longest) continue;
    is_only = length > longest;
    longest = length;
    found = &plant;
  }
  return is_only ? found : nullptr;
}

/// Words of a way as people write them in a batch's name.
constexpr std::array<std::pair<std::string_view, RaisedFrom>, 9> way_stems = {{{"seed", RaisedFrom::seed},
                                                                               {"acorn", RaisedFrom::seed},
                                                                               {"cutting", RaisedFrom::cuttings},
                                                                               {"leaves", RaisedFrom::leaves},
                                                                               {"division", RaisedFrom::division},
                                                                               {"offset", RaisedFrom::offsets},
                                                                               {"runner", RaisedFrom::runners},
                                                                               {"bulb", RaisedFrom::bulbs},
                                                                               {"pad", RaisedFrom::pads}}};

const catalogue::Raising* raising_of(const catalogue::Catalogue& catalogue, const Plant* plant,
                                     const std::string& batch_name) {
  const std::string name = folded_name(batch_name);
  std::optional<RaisedFrom> way;
  for (const auto& [stem, value] : way_stems) {
    if (contains(name, std::string(stem))) way = value;
  }
  if (!way && plant != nullptr && plant->raised_from.size() == 1) way = plant->raised_from.front();
  if (!way) return nullptr;
  return catalogue::find_raising(catalogue.raising, *way, plant == nullptr ? "" : plant->group);
}

void add_step(std::optional<BatchStep>& step, std::int64_t day, double count) {
  if (!step) step = BatchStep{day, 0.0};
  step->count += count;
}

std::string batch_text(const std::string& name) { return fmt::format("batch \"{}\"", name); }

double lost_since(const Batch& batch) { return batch.n_planted_out + batch.n_given_away; }

/// A count that takes the place of the one before: so many are up, potted on, ready.
std::string counted_anew(Batch& batch, std::optional<BatchStep>& step, const Event& event, double count,
                         double before) {
  const double so_far = step ? step->count : 0.0;
  if (so_far + count > before) {
    return fmt::format("{} of {} are more than the {} that there were", so_far + count, batch_text(batch.name), before);
  }
  add_step(step, day_of(event), count);
  batch.n_standing = std::max(0.0, step->count - lost_since(batch));
  return "";
}

std::string taken(Batch& batch, double& sum, double count) {
  if (count > batch.n_standing) {
    return fmt::format("{} of {} are more than the {} that stood there", count, batch_text(batch.name),
                       batch.n_standing);
  }
  sum += count;
  batch.n_standing -= count;
  return "";
}

std::string apply(Batch& batch, const Event& event, double count) {
  const double up = batch.germinated ? batch.germinated->count : batch.sown.count;
  switch (event.kind) {
    case EventKind::germinated:
      return counted_anew(batch, batch.germinated, event, count, batch.sown.count);
    case EventKind::potted_on:
      return counted_anew(batch, batch.potted_on, event, count, up);
    case EventKind::ready:
      return counted_anew(batch, batch.ready, event, count, batch.potted_on ? batch.potted_on->count : up);
    case EventKind::lost:
    case EventKind::died:
      return taken(batch, batch.n_lost, count);
    case EventKind::planted_out:
      return taken(batch, batch.n_planted_out, count);
    case EventKind::given_away:
      return taken(batch, batch.n_given_away, count);
    default:
      return "";
  }
}

/// Finds the batches while it goes through the events.
class Finder {
 public:
  explicit Finder(const catalogue::Catalogue& catalogue) : catalogue_(catalogue) {}

  void take(const EventRecord& record) {
    const Event& event = record.event;
    const double count = event.count.value_or(0.0);
    if (event.kind == EventKind::sown) {
      sow(event, count);
      return;
    }
    Batch* batch = find(event.batch);
    if (batch == nullptr) {
      leave_out(record, fmt::format("{} was never sown, struck or taken on", batch_text(event.batch)));
      return;
    }
    const std::string refused = apply(*batch, event, count);
    if (refused.empty()) {
      batch->last_day = day_of(event);
    } else {
      leave_out(record, refused);
    }
  }

  BatchRecords finish() { return std::move(records_); }

 private:
  Batch* find(const std::string& name) {
    const auto found = std::find_if(records_.batches.begin(), records_.batches.end(),
                                    [&](const Batch& one) { return folded_name(one.name) == folded_name(name); });
    return found == records_.batches.end() ? nullptr : &*found;
  }

  void leave_out(const EventRecord& record, std::string why) {
    records_.left_out.push_back({record.number, std::move(why)});
  }

  void sow(const Event& event, double count) {
    Batch* batch = find(event.batch);
    if (batch == nullptr) {
      Batch fresh;
      fresh.name = event.batch;
      const Plant* plant = event.item.empty() ? nullptr : catalogue::find_plant(catalogue_, event.item);
      if (plant == nullptr) plant = plant_named_in(catalogue_, event.batch);
      if (plant != nullptr) fresh.plant = plant->name;
      fresh.raising = raising_of(catalogue_, plant, event.batch);
      fresh.container = event.container;
      fresh.sown.day = day_of(event);
      records_.batches.push_back(std::move(fresh));
      batch = &records_.batches.back();
    }
    batch->sown.count += count;
    batch->n_standing += count;
    batch->last_day = day_of(event);
  }

  const catalogue::Catalogue& catalogue_;
  BatchRecords records_;
};

bool is_of_batch(const EventRecord& record) {
  if (record.superseded_by || record.event.batch.empty()) return false;
  switch (record.event.kind) {
    case EventKind::sown:
    case EventKind::germinated:
    case EventKind::potted_on:
    case EventKind::lost:
    case EventKind::died:
    case EventKind::ready:
    case EventKind::planted_out:
    case EventKind::given_away:
      return true;
    default:
      return false;
  }
}

}  // namespace

BatchRecords find_batches(std::span<const EventRecord> records, const catalogue::Catalogue& catalogue) {
  std::vector<const EventRecord*> in_order;
  for (const EventRecord& record : records) {
    if (is_of_batch(record)) in_order.push_back(&record);
  }
  std::stable_sort(in_order.begin(), in_order.end(),
                   [](const EventRecord* a, const EventRecord* b) { return a->event.at.utc_s < b->event.at.utc_s; });
  Finder finder(catalogue);
  for (const EventRecord* record : in_order) finder.take(*record);
  return finder.finish();
}

}  // namespace houseleek::planting
