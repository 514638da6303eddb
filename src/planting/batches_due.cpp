// What is due with batches, and what is lost on the way.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "base/nearest_name.hpp"
#include "planting/batches.hpp"
#include "stats/student.hpp"

namespace houseleek::planting {
namespace {

using logbook::EventKind;

constexpr double days_in_year = 365.25;

std::int64_t after(std::int64_t day, double days) { return day + static_cast<std::int64_t>(std::lround(days)); }

std::string how_many(double count) { return fmt::format("{:.0f}", count); }

/// The next step of a batch that still stands.
std::optional<Due> next_step(const Batch& batch, std::int64_t today) {
  if (batch.ready) {
    return Due{
        after(batch.ready->day, days_to_plant_out),
        fmt::format("plant out or give away {}", how_many(batch.n_standing)),
        batch.name,
        fmt::format("ready since {}; what waits in small pots starves, but plant in mild, moist weeks, not in frost or "
                    "high summer; if some are gone, note them as lost",
                    text_from_day(batch.ready->day)),
        EventKind::planted_out,
        batch.n_standing};
  }
  if (batch.raising == nullptr) return std::nullopt;
  const catalogue::Raising& raising = *batch.raising;
  const bool is_seed = raising.way == catalogue::RaisedFrom::seed;
  const bool is_taken = batch.germinated || batch.potted_on || !is_seed;
  if (!is_taken) {
    const std::int64_t given_up = after(batch.sown.day, raising.taken_after_days.high);
    if (today > given_up) {
      return Due{given_up,
                 "nothing is up: sow again",
                 batch.name,
                 fmt::format("sown {}; seed of this kind is up within {:.0f} days", text_from_day(batch.sown.day),
                             raising.taken_after_days.high),
                 EventKind::lost,
                 batch.n_standing};
    }
    return Due{
        after(batch.sown.day, raising.taken_after_days.likely),
        "count what is up",
        batch.name,
        fmt::format("sown {}; usually up after {:.0f} days ({:.0f} to {:.0f})", text_from_day(batch.sown.day),
                    raising.taken_after_days.likely, raising.taken_after_days.low, raising.taken_after_days.high),
        EventKind::germinated,
        batch.n_standing};
  }
  if (raising.potted_on_after_days && !batch.potted_on) {
    return Due{after(batch.sown.day, raising.potted_on_after_days->likely),
               fmt::format("pot on {}", how_many(batch.n_standing)),
               batch.name,
               fmt::format("sown or struck {}; roots fill the tray after {:.0f} days ({:.0f} to {:.0f})",
                           text_from_day(batch.sown.day), raising.potted_on_after_days->likely,
                           raising.potted_on_after_days->low, raising.potted_on_after_days->high),
               EventKind::potted_on,
               batch.n_standing};
  }
  return Due{after(batch.sown.day, raising.ready_after_days.likely),
             fmt::format("see whether {} are ready to plant out", how_many(batch.n_standing)),
             batch.name,
             fmt::format("begun {}; usually ready after {:.0f} days ({:.0f} to {:.0f})", text_from_day(batch.sown.day),
                         raising.ready_after_days.likely, raising.ready_after_days.low, raising.ready_after_days.high),
             EventKind::ready,
             batch.n_standing};
}

}  // namespace

std::optional<LeaveRoof> leave_roof(const catalogue::Plant& plant, std::int64_t began_day) {
  if (!plant.leave_roof_after_years) return std::nullopt;
  const catalogue::Spread& years = *plant.leave_roof_after_years;
  const catalogue::Spread& height = plant.foliage.height_mm;
  const double sail_m2 = 1e-6 * height.high * plant.width_mm->high;
  LeaveRoof leave;
  leave.earliest_day = after(began_day, years.low * days_in_year);
  leave.day = after(began_day, years.likely * days_in_year);
  leave.latest_day = after(began_day, years.high * days_in_year);
  leave.why = fmt::format(
      "its roots seek gaps in the membrane, it wants {:g} mm of wet medium, and {:g} m high it is a sail of up to {:g} "
      "m2; {:g} to {:g} years",
      plant.medium_depth_mm->high, 0.001 * height.high, std::round(10.0 * sail_m2) / 10.0, years.low, years.high);
  return leave;
}

std::vector<Due> due_of_batches(std::span<const Batch> batches, const catalogue::Catalogue& catalogue,
                                std::int64_t today) {
  std::vector<Due> all;
  for (const Batch& batch : batches) {
    if (batch.n_standing <= 0.0) continue;
    if (const std::optional<Due> due = next_step(batch, today)) all.push_back(*due);
    const catalogue::Plant* plant = batch.plant.empty() ? nullptr : catalogue::find_plant(catalogue, batch.plant);
    if (plant == nullptr) continue;
    if (const std::optional<LeaveRoof> leave = leave_roof(*plant, batch.sown.day)) {
      all.push_back({leave->day, "off the roof, into the ground", batch.name, leave->why, EventKind::given_away,
                     batch.n_standing});
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Due& a, const Due& b) { return a.day < b.day; });
  return all;
}

OwnRate own_rate(double n_events, double n_all) {
  expects(n_all >= 1.0 && n_events >= 0.0 && n_events <= n_all, "some of all");
  OwnRate rate;
  rate.n_events = n_events;
  rate.n_all = n_all;
  rate.is_too_few = n_events < least_losses;
  rate.share = n_events / n_all;
  const stats::ShareInterval interval =
      stats::exact_share_interval(static_cast<std::size_t>(std::lround(n_events)),
                                  static_cast<std::size_t>(std::lround(n_all)), rate_confidence_frac);
  rate.low = interval.low;
  rate.high = interval.high;
  return rate;
}

std::optional<OwnRate> raising_losses(const Batch& batch) {
  if (!batch.ready || batch.sown.count < 1.0) return std::nullopt;
  return own_rate(std::max(0.0, batch.sown.count - batch.ready->count), batch.sown.count);
}

std::optional<PooledLosses> pooled_losses(std::span<const Batch> batches, const std::string& plant,
                                          catalogue::RaisedFrom way) {
  double n_lost = 0.0;
  double n_all = 0.0;
  std::vector<double> shares;
  for (const Batch& batch : batches) {
    const bool is_same = batch.plant == plant && batch.raising != nullptr && batch.raising->way == way;
    const std::optional<OwnRate> one = is_same ? raising_losses(batch) : std::nullopt;
    if (!one) continue;
    n_lost += one->n_events;
    n_all += one->n_all;
    shares.push_back(one->share);
  }
  if (shares.empty()) return std::nullopt;
  PooledLosses pooled{own_rate(n_lost, n_all), static_cast<int>(shares.size())};
  const auto [least, most] = std::minmax_element(shares.begin(), shares.end());
  pooled.rate.low = std::min(pooled.rate.low, *least);
  pooled.rate.high = std::max(pooled.rate.high, *most);
  return pooled;
}

std::optional<OwnRate> losses_on_roof(std::span<const logbook::EventRecord> records, std::span<const Batch> batches,
                                      const catalogue::Catalogue& catalogue, const std::string& plant) {
  double n_planted = 0.0;
  for (const Batch& batch : batches) n_planted += batch.plant == plant ? batch.n_planted_out : 0.0;
  double n_died = 0.0;
  for (const logbook::EventRecord& record : records) {
    const logbook::Event& event = record.event;
    if (record.superseded_by || event.kind != EventKind::died || !event.batch.empty() || event.item.empty()) continue;
    const catalogue::Plant* named = catalogue::find_plant(catalogue, event.item);
    if (named != nullptr && named->name == plant) n_died += event.count.value_or(1.0);
  }
  if (n_planted < 1.0) return std::nullopt;
  // More died than were logged as planted: the rest came from elsewhere, and no share can be told.
  if (n_died > n_planted) return std::nullopt;
  return own_rate(n_died, n_planted);
}

}  // namespace houseleek::planting
