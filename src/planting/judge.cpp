// Will this plant live at this place: hard limits one by one, in three words, with a sentence for and against each.
#include "planting/judge.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/contract.hpp"
#include "base/number_words.hpp"
#include "planting/mixes.hpp"

namespace houseleek::planting {
namespace {

using catalogue::Plant;
using catalogue::Spread;
using catalogue::Tolerance;

constexpr double breezy_from_m_per_s = 5.5;
constexpr double windy_from_m_per_s = 8.0;
constexpr double full_sun_from_frac = 0.7;
constexpr double half_sun_from_frac = 0.4;
constexpr int least_months_of_season = 3;

std::string degrees(double t_c) { return fmt::format("{:.0f} degC", t_c == 0.0 ? 0.0 : std::round(t_c) + 0.0); }

Survival by_figure(double asked, double likely, double seldom) {
  if (asked <= likely) return Survival::likely;
  return asked <= seldom ? Survival::doubtful : Survival::no;
}

Reason winter_of_years(const Plant& plant, const Place& place) {
  const Spread& lives = *plant.lowest_temperature_c;
  Reason reason{"winter", Survival::likely, ""};
  const ColdestNight& night = place.coldest;
  if (night.likely_c < lives.low) {
    reason.word = Survival::no;
  } else if (night.low_c < lives.likely) {
    reason.word = Survival::doubtful;
  }
  const std::string asked = fmt::format("one winter in {:.0f} has a night of {} ({} to {})", winter_return_years,
                                        degrees(night.likely_c), degrees(night.low_c), degrees(night.high_c));
  const std::string borne = fmt::format("{} ({} at the very best)", degrees(lives.likely), degrees(lives.low));
  reason.text = reason.word == Survival::likely ? fmt::format("lives through {}; {}", borne, asked)
                                                : fmt::format("{}, and it lives through {}", asked, borne);
  return reason;
}

/// The longest run of months, over the turn of the year too.
struct MonthRun {
  int first = 0;  // 0: January
  int length = 0;
};

MonthRun longest_run(const std::vector<bool>& months) {
  MonthRun best;
  for (int first = 0; first < 12; ++first) {
    int length = 0;
    while (length < 12 && months[static_cast<std::size_t>((first + length) % 12)]) ++length;
    if (length > best.length) best = {first, length};
  }
  return best;
}

Reason winter_of_season(const Plant& plant, const Place& place, Judged& judged) {
  expects(place.coldest_by_month_c.size() == 12, "a coldest night for every month");
  const Spread& lives = *plant.lowest_temperature_c;
  std::vector<bool> months;
  for (const double coldest_c : place.coldest_by_month_c) months.push_back(coldest_c >= lives.likely);
  const MonthRun run = longest_run(months);
  Reason reason{"winter", Survival::likely, ""};
  if (run.length == 0) {
    reason.word = Survival::no;
    reason.text = fmt::format("every month has a night below {} once in {:.0f} years", degrees(lives.likely),
                              winter_return_years);
    return reason;
  }
  judged.first_month = run.first + 1;
  judged.last_month = (run.first + run.length - 1) % 12 + 1;
  const std::string span = months_in_words(*judged.first_month, *judged.last_month);
  if (run.length < least_months_of_season) {
    reason.word = Survival::doubtful;
    reason.text =
        fmt::format("only {} without a night below {} once in {:.0f} years ({})",
                    counted(run.length, "month is", "months are"), degrees(lives.likely), winter_return_years, span);
  } else {
    reason.text = fmt::format("a plant of one season: outside {}, when no night in {:.0f} years is below {}", span,
                              winter_return_years, degrees(lives.likely));
  }
  return reason;
}

Reason depth_reason(const Plant& plant, const Place& place) {
  const Spread& wants = *plant.medium_depth_mm;
  Reason reason{"depth", by_figure(-place.medium_depth_mm, -wants.likely, -wants.low), ""};
  const double depth = place.medium_depth_mm;
  if (reason.word == Survival::likely) {
    reason.text = fmt::format("{:.0f} mm of medium, and it lives in {:.0f}{}", depth, wants.likely,
                              depth >= wants.high ? "; it thrives in so much" : "");
  } else if (reason.word == Survival::doubtful) {
    reason.text = fmt::format("{:.0f} mm of medium; it hangs on from {:.0f} and lives from {:.0f}", depth, wants.low,
                              wants.likely);
  } else {
    reason.text =
        fmt::format("{:.0f} mm of medium is too thin: it wants {:.0f}, as a bag or tub may have", depth, wants.likely);
  }
  return reason;
}

std::optional<Reason> dry_reason(const Plant& plant, const Place& place) {
  if (!place.dry) return std::nullopt;
  const Spread& days = *plant.dry_spell_days;
  const auto bears = [&](double all) { return days_beyond_store(all, place.reference_days); };
  Reason reason{"dry", Survival::likely, ""};
  if (place.dry->likely > bears(days.high)) {
    reason.word = Survival::no;
  } else if (place.dry->high > bears(days.likely)) {
    reason.word = Survival::doubtful;
  }
  if (place.dry->high < 1.0) {
    reason.text = "the module never stands dry as it is watered now";
    return reason;
  }
  const std::string stands = fmt::format("the module stands dry for {} in a row ({}; {:.0f} one year in ten)",
                                         counted(place.dry->likely, "day", "days"), place.dry->when, place.dry->high);
  const double lives = bears(days.likely);
  reason.text = fmt::format("{}, and it bears about {:.0f} dry days{}", stands, lives,
                            reason.word == Survival::likely ? "" : "; water it more often");
  return reason;
}

int step(catalogue::Sun sun) { return static_cast<int>(sun); }

Reason sun_reason(const Plant& plant, const Place& place) {
  int off = 2;
  std::string wants;
  constexpr std::array<std::string_view, 3> words = {"full sun", "half the day's sun", "shade"};
  for (const catalogue::Sun one : plant.sun) {
    off = std::min(off, std::abs(step(one) - step(place.sun)));
    wants += (wants.empty() ? "" : " or ") + std::string(words[static_cast<std::size_t>(step(one))]);
  }
  Reason reason{"sun", off == 0 ? Survival::likely : off == 1 ? Survival::doubtful : Survival::no, ""};
  const std::string has =
      fmt::format("{}{}{}", words[static_cast<std::size_t>(step(place.sun))],
                  place.is_under_net ? " under the net" : "", place.is_sun_said ? "" : " (taken for granted)");
  reason.text = off == 0 ? fmt::format("wants {}; the place has {}", wants, has)
                         : fmt::format("the place has {}, and it wants {}", has, wants);
  return reason;
}

Reason wind_reason(const Plant& plant, const Place& place) {
  const int short_by = static_cast<int>(place.wind) - static_cast<int>(plant.wind->tolerance);
  Reason reason{"wind", short_by > 0 ? Survival::doubtful : Survival::likely, ""};
  const std::string has =
      fmt::format("one hour in twenty has wind above {} m/s on the roof", two_digits(place.wind_m_per_s));
  constexpr std::array<std::string_view, 3> bears = {"bears little wind", "bears some wind", "stands in the wind"};
  const std::string_view borne = bears[static_cast<std::size_t>(plant.wind->tolerance)];
  reason.text =
      short_by > 0 ? fmt::format("{}, and it {}: give it a screen", has, borne) : fmt::format("{}; {}", borne, has);
  return reason;
}

std::optional<Reason> salt_reason(const Plant& plant, const Place& place) {
  if (place.salt == design::SaltSpray::none) return std::nullopt;
  const int short_by = static_cast<int>(place.salt) - static_cast<int>(plant.salt_spray->tolerance);
  const Survival word = short_by <= 0 ? Survival::likely : short_by == 1 ? Survival::doubtful : Survival::no;
  constexpr std::array<std::string_view, 3> bears = {"bears no salt on its leaves", "bears some salt on its leaves",
                                                     "bears salt on its leaves"};
  const std::string_view borne = bears[static_cast<std::size_t>(plant.salt_spray->tolerance)];
  const std::string_view has =
      place.salt == design::SaltSpray::some ? "some salt comes from the sea" : "much salt comes from the sea";
  return Reason{"salt", word, word == Survival::likely ? std::string(borne) : fmt::format("{}, and it {}", has, borne)};
}

std::optional<Reason> climate_reason(const Plant& plant, const Place& place) {
  if (place.climates.empty() || plant.climates.empty()) return std::nullopt;
  std::string known;
  for (const catalogue::Climate one : plant.climates) {
    const std::string_view name = climate_name(one);
    if (std::find(place.climates.begin(), place.climates.end(), one) != place.climates.end()) {
      return Reason{"climate", Survival::likely, fmt::format("growers know it from {} climates like this one", name)};
    }
    known += (known.empty() ? "" : ", ") + std::string(name);
  }
  return Reason{
      "climate", Survival::doubtful,
      fmt::format("growers know it from {} climates; this one is {}", known, climate_name(place.climates.front()))};
}

}  // namespace

std::string_view climate_name(catalogue::Climate climate) {
  constexpr std::array<std::string_view, 6> names = {"summer-dry", "temperate",  "cold",
                                                     "half-dry",   "frost-free", "coastal"};
  return names[static_cast<std::size_t>(climate)];
}

std::string_view word_of(Survival survival) {
  constexpr std::array<std::string_view, 3> words = {"likely", "doubtful", "no"};
  return words[static_cast<std::size_t>(survival)];
}

WindExposure wind_exposure(double wind_m_per_s) {
  expects(wind_m_per_s >= 0.0, "a wind that is not negative");
  if (wind_m_per_s < breezy_from_m_per_s) return WindExposure::sheltered;
  return wind_m_per_s < windy_from_m_per_s ? WindExposure::breezy : WindExposure::windy;
}

catalogue::Sun sun_on_plants(design::RoofSun roof, double net_transmittance_frac) {
  expects(net_transmittance_frac >= 0.0 && net_transmittance_frac <= 1.0, "a share of the sun");
  const int net = net_transmittance_frac >= full_sun_from_frac   ? 0
                  : net_transmittance_frac >= half_sun_from_frac ? 1
                                                                 : 2;
  return static_cast<catalogue::Sun>(std::min(2, static_cast<int>(roof) + net));
}

double days_beyond_store(double dry_spell_days, double reference_days) {
  return std::max(0.0, dry_spell_days - reference_days);
}

Judged judge(const Plant& plant, const Place& place) {
  expects(plant.lowest_temperature_c && plant.medium_depth_mm && plant.dry_spell_days && plant.wind &&
              plant.salt_spray && plant.lifespan,
          "a plant of the catalogue, with all that the choice needs");
  Judged judged;
  const bool is_of_season = plant.lifespan == catalogue::Lifespan::season;
  judged.reasons.push_back(is_of_season ? winter_of_season(plant, place, judged) : winter_of_years(plant, place));
  judged.reasons.push_back(depth_reason(plant, place));
  if (const auto dry = dry_reason(plant, place)) judged.reasons.push_back(*dry);
  judged.reasons.push_back(sun_reason(plant, place));
  judged.reasons.push_back(wind_reason(plant, place));
  if (const auto salt = salt_reason(plant, place)) judged.reasons.push_back(*salt);
  if (const auto climate = climate_reason(plant, place)) judged.reasons.push_back(*climate);
  std::stable_sort(judged.reasons.begin(), judged.reasons.end(),
                   [](const Reason& a, const Reason& b) { return a.word > b.word; });
  judged.word = judged.reasons.front().word;
  return judged;
}

}  // namespace houseleek::planting
