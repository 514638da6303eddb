// What a household has to do for a trial, and what an adviser wants to know of it.
#include "trials/plan_words.hpp"

#include <fmt/format.h>

#include <cmath>
#include <map>

#include "trials/judge_words.hpp"

namespace houseleek::trials {

namespace {

std::string clock(double hour) {
  const int minutes = static_cast<int>(std::lround(hour * 60.0));
  return fmt::format("{:02d}:{:02d}", minutes / 60 % 24, minutes % 60);
}

std::string hours_of(const TrialWish& wish) {
  if (wish.measure == Measure::maximum) return fmt::format("once a day at {}", clock(wish.afternoon_h));
  if (wish.measure == Measure::minimum) return fmt::format("once a day at {}", clock(wish.morning_h));
  return fmt::format("twice a day, at {} and {}", clock(wish.morning_h), clock(wish.afternoon_h));
}

void add_places(const TrialPlan& plan, std::vector<std::string>& sentences) {
  std::map<std::string, std::vector<const Assignment*>> blocks;
  for (const Assignment& a : plan.assignments) blocks[a.block].push_back(&a);
  for (const auto& [block, members] : blocks) {
    std::string text;
    for (const Assignment* a : members) {
      text += fmt::format("{}{} gets {}", text.empty() ? "" : ", ", a->square, a->side);
    }
    if (block.empty()) {
      sentences.push_back(text + ".");
    } else {
      sentences.push_back(
          fmt::format("{} ({}): {}.", members.size() == 2 ? "Pair these two" : "Keep these together", block, text));
    }
  }
}

}  // namespace

std::vector<std::string> household_sentences(const TrialWish& wish, const TrialPlan& plan, const TrialSize& chosen) {
  std::vector<std::string> sentences;
  add_places(plan, sentences);
  for (const TrialSide& side : wish.sides) {
    if (!side.what.empty()) sentences.push_back(fmt::format("{}: {}.", side.name, side.what));
  }
  if (wish.is_by_hand) {
    sentences.push_back(fmt::format("Read each place {} (standard time), for {} days, with {}.", hours_of(wish),
                                    chosen.days, wish.instrument));
    if (wish.measure == Measure::swing || wish.measure == Measure::degree_hours) {
      sentences.emplace_back("Both readings of a day count together: a day with one of them is left out.");
    }
    if (wish.measure == Measure::lag) {
      sentences.emplace_back("A lag cannot be had from two readings a day: hang loggers, or choose another measure.");
    }
    sentences.emplace_back(
        "Go round within a quarter of an hour, one day forwards and the next backwards, and wait until the number "
        "stands "
        "still.");
  } else {
    sentences.push_back(
        fmt::format("Hang one logger in each place for {} days, all set to the same interval of at most 15 "
                    "minutes.",
                    chosen.days));
  }
  if (wish.is_one_instrument && wish.is_by_hand) {
    sentences.emplace_back("Use the same instrument everywhere: what it shows too much or too little then falls out.");
  } else {
    sentences.emplace_back(
        "Before and after, let all instruments lie side by side in one shaded box for a night and write down what each "
        "shows.");
  }
  sentences.emplace_back(
      "Keep the probe in the shade and in the same spot each time: below the deck under the middle of the "
      "square, or under the module.");
  sentences.emplace_back(
      "An infrared thermometer shows the skin of what it points at, not the air; on bare metal or foil, through glass, "
      "or "
      "from far away it shows something else.");
  sentences.emplace_back("Do not move, water or change one side without the other; write down what had to be.");
  if (chosen.is_enough) {
    sentences.push_back(fmt::format("If {} differs by {} {} or more, {} of 100 such trials will tell.",
                                    words_of(wish.measure), two_digits(wish.wanted_difference), unit_of(wish.measure),
                                    static_cast<int>(std::floor(100.0 * chosen.power_frac))));
  } else {
    sentences.push_back(
        fmt::format("These squares and days are too few to tell {0} {1}: only {2} {1} or more would be told "
                    "in {3:.0f} of 100 such trials.",
                    two_digits(wish.wanted_difference), unit_of(wish.measure), two_digits(plan.told_difference),
                    100.0 * wish.power_frac));
  }
  if (!chosen.is_about_recipes) {
    sentences.emplace_back(
        "With fewer than three modules a side the answer will be about these modules only, not about the recipe.");
  }
  return sentences;
}

std::vector<std::string> adviser_sentences(const TrialWish& wish, const TrialPlan& plan, const TrialSize& chosen) {
  std::vector<std::string> sentences;
  const char* layout = wish.layout == Layout::blocks ? "complete blocks, sides by lot within each"
                       : wish.layout == Layout::free ? "sides by lot over all squares"
                                                     : "Latin square (cyclic, rows, columns and sides by lot)";
  sentences.push_back(fmt::format("Layout: {}; {} modules a side, {} days; seed {}.", layout, chosen.n_modules,
                                  chosen.days, plan.seed));
  const TrialSpread& s = wish.spread;
  sentences.push_back(fmt::format(
      "Spread ({}): modules {:.2g}, days {:.2g} with correlation {:.2g}, reading {:.2g}, instruments {:.2g} {}.",
      s.source.empty() ? "assumed" : s.source, s.module_sd, s.day_sd, s.day_correlation, s.reading_sd,
      wish.is_one_instrument ? 0.0 : s.instrument_offset_sd, unit_of(wish.measure)));
  sentences.push_back(
      fmt::format("Foreseen error of a difference {:.2g} {}, half interval {:.2g}, power {:.0f} % at {} "
                  "confidence for each of the comparisons.",
                  chosen.standard_error, unit_of(wish.measure), chosen.half_interval, 100.0 * chosen.power_frac,
                  percent(plan.comparison_confidence_frac)));
  for (const TrialSize& size : plan.sizes) {
    sentences.push_back(fmt::format("{} a side: {} days, power {:.0f} %, {}.", size.n_modules, size.days,
                                    100.0 * size.power_frac,
                                    size.is_about_recipes ? "about recipes" : "about these modules only"));
  }
  return sentences;
}

}  // namespace houseleek::trials
