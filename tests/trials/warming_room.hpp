// A room of one heat capacity under an invented sky: a cheap model with two properties to be found again.
#pragma once
#include <cmath>
#include <cstdint>
#include <numbers>
#include <span>
#include <vector>

#include "stats/sampling.hpp"
#include "trials/fit.hpp"

namespace houseleek::trials::invented {

/// Hours of outside air and sun over some days; days differ.
struct Sky {
  std::vector<double> air_c;
  std::vector<double> sun_w_per_m2;
  std::vector<int> day;
};

inline Sky sky_of(int n_days, std::uint64_t seed, std::uint32_t draw) {
  const RandomVariable warm = random_variable(seed, "warm");
  const RandomVariable clear = random_variable(seed, "clear");
  Sky sky;
  double departure = 0.0;
  for (int day = 0; day < n_days; ++day) {
    departure = 0.7 * departure + 2.0 * stats::random_normal(warm, {draw, day, 0});
    const double clearness = 0.3 + 0.7 * random_uniform(clear, {draw, day, 0});
    for (int hour = 0; hour < 24; ++hour) {
      const double angle = 2.0 * std::numbers::pi * (hour - 15) / 24.0;
      sky.air_c.push_back(24.0 + departure + 6.0 * std::cos(angle));
      sky.sun_w_per_m2.push_back(
          std::max(0.0, 900.0 * clearness * std::cos(2.0 * std::numbers::pi * (hour - 12) / 24.0)));
      sky.day.push_back(day);
    }
  }
  return sky;
}

/// exchange_per_h (air) and gain_k_per_h at 1000 W/m2; hourly steps.
inline std::vector<double> room_c(const Sky& sky, double exchange_per_h, double gain_k_per_h) {
  std::vector<double> room;
  double now_c = 25.0;
  for (std::size_t i = 0; i < sky.air_c.size(); ++i) {
    now_c += exchange_per_h * (sky.air_c[i] - now_c) + gain_k_per_h * sky.sun_w_per_m2[i] / 1000.0;
    room.push_back(now_c);
  }
  return room;
}

struct Readings {
  double exchange_per_h = 0.15;
  double gain_k_per_h = 1.2;
  double noise_k = 0.4;
  double hour_correlation = 0.8;  // of the noise
  double day_noise_k = 0.2;       // one shift for each day ...
  double day_correlation = 0.3;   // ... alike from day to day
};

inline FitQuestion question_of(const Sky& sky, const Readings& truth, std::uint64_t seed, std::uint32_t draw) {
  const RandomVariable noise = random_variable(seed, "noise");
  FitQuestion question;
  question.properties = {{"exchange_per_h", 0.1, 0.01, 0.8}, {"gain_k_per_h", 0.6, 0.0, 6.0}};
  question.model = [sky](std::span<const double> p) { return room_c(sky, p[0], p[1]); };
  question.observed = room_c(sky, truth.exchange_per_h, truth.gain_k_per_h);
  question.day = sky.day;
  double hourly = stats::random_normal(noise, {draw, -1, 0});
  double daily = stats::random_normal(noise, {draw, -2, 0});
  for (std::size_t i = 0; i < question.observed.size(); ++i) {
    const auto index = static_cast<std::uint32_t>(i % 24);
    const double h = truth.hour_correlation;
    const double d = truth.day_correlation;
    hourly = h * hourly + std::sqrt(1.0 - h * h) * stats::random_normal(noise, {draw, sky.day[i], index});
    if (index == 0) daily = d * daily + std::sqrt(1.0 - d * d) * stats::random_normal(noise, {draw, sky.day[i], 99});
    question.observed[i] += truth.noise_k * hourly + truth.day_noise_k * daily;
  }
  question.is_profiled = false;
  return question;
}

}  // namespace houseleek::trials::invented
