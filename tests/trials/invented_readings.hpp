// Invented readings with a known truth: modules with their own levels, days alike, loggers with a daily wave.
#pragma once
#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>
#include <vector>

#include "logbook/reading.hpp"
#include "stats/sampling.hpp"
#include "trials/judge.hpp"

namespace houseleek::trials::invented {

struct Truth {
  double difference = 0.0;       // side a less the others
  double module_sd = 0.5;        // between modules of a side
  double common_day_sd = 3.0;    // weather, shared by all modules
  double own_day_sd = 1.0;       // each module's days about that
  double day_correlation = 0.5;  // of a module's own days
  double block_sd = 0.0;
  std::size_t n_modules = 3;
  std::size_t n_sides = 2;
  int n_days = 28;
  bool is_in_blocks = false;
  double missing_frac = 0.0;  // of single values
};

/// Sides "a", "b", ... under the same weather; everything a function of seed and draw.
inline std::vector<ModuleDays> sides_of(const Truth& truth, std::uint64_t seed, std::uint32_t draw) {
  const RandomVariable days = random_variable(seed, "days");
  const RandomVariable own = random_variable(seed, "own days");
  const RandomVariable levels = random_variable(seed, "levels");
  const RandomVariable blocks = random_variable(seed, "blocks");
  const RandomVariable missing = random_variable(seed, "missing");
  std::vector<ModuleDays> modules;
  for (std::size_t i = 0; i < truth.n_sides * truth.n_modules; ++i) {
    const auto index = static_cast<std::uint32_t>(i);
    const std::size_t number = i / truth.n_sides;
    const std::string side(1, static_cast<char>('a' + i % truth.n_sides));
    ModuleDays module{.module = side + std::to_string(number + 1),
                      .side = side,
                      .block = truth.is_in_blocks ? fmt::format("block {}", number + 1) : "",
                      .second_block = "",
                      .days = {}};
    double level = (side == "a" ? truth.difference : 0.0) +
                   truth.module_sd * stats::random_normal(levels, {.draw = draw, .day = 0, .index = index});
    if (truth.is_in_blocks) {
      level += truth.block_sd *
               stats::random_normal(blocks, {.draw = draw, .day = 0, .index = static_cast<std::uint32_t>(number)});
    }
    double departure = stats::random_normal(own, {.draw = draw, .day = -1, .index = index});
    const double r = truth.day_correlation;
    for (int day = 0; day < truth.n_days; ++day) {
      departure = r * departure + std::sqrt(1.0 - r * r) * stats::random_normal(own, {draw, day, index});
      const double weather = truth.common_day_sd * stats::random_normal(days, {draw, day, 0});
      if (stats::random_event(missing, {draw, day, index}, truth.missing_frac)) continue;
      module.days.push_back({day, 30.0 + level + weather + truth.own_day_sd * departure, ""});
    }
    modules.push_back(std::move(module));
  }
  return modules;
}

/// A logger that shows mean + amplitude cos(2 pi (t - crest) / 24 h), every quarter hour.
inline logbook::LoggerColumn wave(const std::string& name, int first_day, int n_days, double mean_c, double amplitude_k,
                                  double crest_h) {
  logbook::LoggerColumn column{.name = name, .time_s = {}, .value_c = {}};
  for (int i = 0; i < n_days * 96; ++i) {
    const double hour = 0.25 * i;
    column.time_s.push_back(first_day * logbook::n_seconds_in_day + i * 900LL);
    column.value_c.push_back(mean_c + amplitude_k * std::cos(2.0 * std::numbers::pi * (hour - crest_h) / 24.0));
  }
  return column;
}

}  // namespace houseleek::trials::invented
