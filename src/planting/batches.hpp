// Batches of seedlings and cuttings as the logbook tells them, what is due with each, and what is lost on the way.
//
//   const BatchRecords found = find_batches(records, catalogue);
//   for (const Due& due : due_of_batches(found.batches, catalogue, today)) ...   // plain data: date, what, batch, why
#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "logbook/event.hpp"

namespace houseleek::planting {

/// A step of a batch, on a day since 1970.
struct BatchStep {
  std::int64_t day = 0;
  double count = 0.0;
};

/// One batch. Counts are sums of the steps of a kind.
struct Batch {
  std::string name;
  std::string plant;      // of the catalogue, by the item of its sowing or by its name; empty: not told
  std::string container;  // what it was sown in
  const catalogue::Raising* raising = nullptr;  // nullptr: not told how it is raised
  BatchStep sown;                               // the first sowing, with all that was sown
  std::optional<BatchStep> germinated;
  std::optional<BatchStep> potted_on;
  std::optional<BatchStep> ready;
  double n_lost = 0.0;  // `lost`, and `died` of a batch
  double n_planted_out = 0.0;
  double n_given_away = 0.0;
  double n_standing = 0.0;    // still in the nursery
  std::int64_t last_day = 0;  // of its last event
};

/// An event that tells of a batch and of which nothing could be made.
struct BatchLeftOut {
  std::int64_t number = 0;
  std::string why;
};

struct BatchRecords {
  std::vector<Batch> batches;  // in the order of their sowing
  std::vector<BatchLeftOut> left_out;
};

/// Goes through the events in order of their time; superseded ones are left out. A batch begins with `sown`. Its plant is
/// the item of that event, else the only plant of the catalogue whose botanical or common name stands in the batch's
/// name. Its way is the only one in which the plant is raised, else the one whose word (seed, cutting, division ...)
/// stands in the name. An event of a batch that was never sown, or with more than there were, is left out and said.
/// Standing: what was counted last (ready, else potted on, else up, else sown), less what was lost, planted out and given
/// away since.
[[nodiscard]] BatchRecords find_batches(std::span<const logbook::EventRecord> records,
                                        const catalogue::Catalogue& catalogue);

/// Something to be done with a batch; what the week's list reads.
struct Due {
  std::int64_t day = 0;  // since 1970
  std::string what;      // in a few words, to be done
  std::string batch;
  std::string why;
  logbook::EventKind event = logbook::EventKind::noted;  // that it leaves behind, once done
  double n_standing = 0.0;                               // plants of the batch by the logbook; sown, where none is up
  bool operator==(const Due&) const = default;
};

/// What is due with batches that still stand, earliest first; what was due before today stays until it is logged.
/// - nothing up yet: look at the likely day; sow again after the high figure of taken_after_days
/// - up and never potted on, where that way is: pot on
/// - not ready: see whether it is, at ready_after_days
/// - ready: plant out or give away, days_to_plant_out after it became ready
/// - a tree: out of the roof, leave_roof_after_years after sowing: roots, weight and sail
inline constexpr int days_to_plant_out = 14;
[[nodiscard]] std::vector<Due> due_of_batches(std::span<const Batch> batches, const catalogue::Catalogue& catalogue,
                                              std::int64_t today);

/// When a tree that began on a day must leave the roof; nullopt where the plant is none.
struct LeaveRoof {
  std::int64_t earliest_day = 0;
  std::int64_t day = 0;
  std::int64_t latest_day = 0;
  std::string why;  // roots, weight and sail, with the figures
};
[[nodiscard]] std::optional<LeaveRoof> leave_roof(const catalogue::Plant& plant, std::int64_t began_day);

/// A share with the interval that holds the truth nine times in ten.
struct OwnRate {
  double n_events = 0.0;
  double n_all = 0.0;
  bool is_too_few = true;  // fewer than least_losses
  double share = 0.0;
  double low = 0.0;
  double high = 1.0;
};
inline constexpr double least_losses = 5.0;
inline constexpr double rate_confidence_frac = 0.9;

/// Clopper and Pearson's interval; whole counts. Of one batch, or of batches thrown together: the next batch may differ
/// by more than chance among its plants.
/// Errors: ContractViolation where there are more events than all, or none at all.
[[nodiscard]] OwnRate own_rate(double n_events, double n_all);

/// Losses from sowing to ready: of a batch that has become ready, else nothing.
[[nodiscard]] std::optional<OwnRate> raising_losses(const Batch& batch);

/// Losses from sowing to ready over all batches of a plant and a way that have become ready; for the next sowing its range
/// also holds every such batch's own share.
struct PooledLosses {
  OwnRate rate;
  int n_batches = 0;
};
[[nodiscard]] std::optional<PooledLosses> pooled_losses(std::span<const Batch> batches, const std::string& plant,
                                                        catalogue::RaisedFrom way);

/// Plants that died on the roof (`died`, item = the plant) of those planted out there.
[[nodiscard]] std::optional<OwnRate> losses_on_roof(std::span<const logbook::EventRecord> records,
                                                    std::span<const Batch> batches,
                                                    const catalogue::Catalogue& catalogue, const std::string& plant);

}  // namespace houseleek::planting
