// Backwards from a planting date: how many to sow or strike, and when.
#include "planting/raise_plan.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"

namespace houseleek::planting {
namespace {

std::int64_t days(double count) { return static_cast<std::int64_t>(std::lround(count)); }

}  // namespace

double whole_at_least(double count) {
  constexpr double rounding = 1e-9;
  return std::ceil(count * (1.0 - rounding));
}

RaisePlan plan_raising(const RaiseQuestion& question) {
  expects(question.raising != nullptr && question.n_plants > 0.0, "a way of raising and a number of plants");
  const catalogue::Raising& raising = *question.raising;
  Share share{raising.taking_frac.low * raising.keeping_frac.low,
              raising.taking_frac.likely * raising.keeping_frac.likely,
              raising.taking_frac.high * raising.keeping_frac.high, raising.taking_frac.source};
  if (question.own_share) share = *question.own_share;
  expects(share.low > 0.0 && share.low <= share.likely && share.likely <= share.high && share.high <= 1.0,
          "shares in order, above nothing");
  RaisePlan plan;
  plan.share_from = share.from;
  plan.to_begin = whole_at_least(question.n_plants / share.likely);
  plan.to_begin_low = whole_at_least(question.n_plants / share.high);
  plan.to_begin_high = whole_at_least(question.n_plants / share.low);
  expects(plan.to_begin_high < 1e9, "a number that can be sown");
  plan.to_expect = std::min(plan.to_begin, whole_at_least(plan.to_begin * raising.taking_frac.likely));
  plan.begin_day = question.by_day - days(raising.ready_after_days.likely);
  plan.begin_earliest = question.by_day - days(raising.ready_after_days.high);
  plan.begin_latest = question.by_day - days(raising.ready_after_days.low);
  plan.taken_day = plan.begin_day + days(raising.taken_after_days.likely);
  if (raising.potted_on_after_days) {
    plan.potted_on_day = plan.begin_day + days(raising.potted_on_after_days->likely);
  }
  return plan;
}

}  // namespace houseleek::planting
