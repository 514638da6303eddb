// Backwards from a planting date: how many to sow or strike, and when.
#pragma once
#include <cstdint>
#include <optional>
#include <string>

#include "catalogue/raising.hpp"

namespace houseleek::planting {

/// A share with its ends, and where it comes from.
struct Share {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
  std::string from;
};

struct RaiseQuestion {
  double n_plants = 0.0;    // wanted
  std::int64_t by_day = 0;  // to be planted out, since 1970
  const catalogue::Raising* raising = nullptr;
  std::optional<Share> own_share;  // of what was sown that lived until ready, from the own logbook
};

struct RaisePlan {
  // Whole ones; low where more live than usual, high where fewer do.
  double to_begin = 0.0;
  double to_begin_low = 0.0;
  double to_begin_high = 0.0;
  double to_expect = 0.0;           // up or rooted, of those to begin with at the likely figures
  std::int64_t begin_day = 0;       // at the likely time
  std::int64_t begin_earliest = 0;  // if all goes slowly
  std::int64_t begin_latest = 0;    // if all goes fast
  std::int64_t taken_day = 0;       // to look for what came up
  std::optional<std::int64_t> potted_on_day;
  std::string share_from;
};

/// Equation: n = ceil(N / (t k)); begin = by - d
/// Symbols:  N: n_plants; t: taking_frac, k: keeping_frac of the catalogue, or t k as one share from the own logbook; d:
///           ready_after_days. Low ends of shares give to_begin_high, high ends of days begin_earliest.
/// Shape:    a question in, a plan out; pure.
/// Units:    plants, days.
/// Valid:    N above 0; N / (t k) below 1e9.
/// Errors:   ContractViolation outside.
/// Source:   definition; figures of the catalogue.   Checked by: RSE-01 to RSE-06.
[[nodiscard]] RaisePlan plan_raising(const RaiseQuestion& question);

/// Whole things for a count that floating point may have put a hair above.
[[nodiscard]] double whole_at_least(double count);

}  // namespace houseleek::planting
