// How long a part lasts here, and what will have to be replaced when.
#include "upkeep/service_life.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "base/number_words.hpp"
#include "base/random.hpp"

namespace houseleek::upkeep {

namespace {

using stats::Weibull;
using stats::WeightedLaw;

constexpr std::uint32_t n_futures = 4000;

stats::Quantiles median_lives(const std::vector<WeightedLaw>& laws, double confidence_frac) {
  std::vector<stats::WeightedValue> values;
  for (const WeightedLaw& law : laws) values.push_back({stats::median_life_years(law.law), law.weight});
  return stats::weighted_quantiles(std::move(values), confidence_frac);
}

stats::Quantiles shapes(const std::vector<WeightedLaw>& laws, double confidence_frac) {
  std::vector<stats::WeightedValue> values;
  for (const WeightedLaw& law : laws) values.push_back({law.law.shape, law.weight});
  return stats::weighted_quantiles(std::move(values), confidence_frac);
}

const Weibull& drawn_law(const std::vector<WeightedLaw>& laws, double share) {
  double sum = 0.0;
  for (const WeightedLaw& law : laws) {
    sum += law.weight;
    if (share < sum) return law.law;
  }
  return laws.back().law;
}

/// Age at failure of a part that is in use at this age.
double drawn_age_years(const Weibull& law, double age_years, double share) {
  const double hazard = age_years > 0.0 ? std::pow(age_years / law.scale_years, law.shape) : 0.0;
  return law.scale_years * std::pow(hazard - std::log(share), 1.0 / law.shape);
}

/// Replacements by month of one drawn future; by whole months as stats::expected_replacements has them.
std::vector<int> drawn_future(const ServiceLifeQuestion& question, const std::vector<WeightedLaw>& laws,
                              std::uint32_t draw) {
  const RandomVariable variable = random_variable(question.seed, "service life of " + question.part);
  std::uint32_t index = 0;
  const auto share = [&] { return random_uniform(variable, {.draw = draw, .day = 0, .index = index++}); };
  const Weibull law = drawn_law(laws, share());
  std::vector<int> months(question.n_months, 0);
  for (const stats::PartsInUse& parts : question.in_use) {
    for (int part = 0; part < static_cast<int>(std::lround(parts.n_parts)); ++part) {
      double age_years = parts.age_years;
      std::size_t now = 0;  // months from today
      while (true) {
        const double left_months = 12.0 * (drawn_age_years(law, age_years, share()) - age_years);
        const double month = static_cast<double>(now) + std::max(1.0, std::ceil(left_months));
        if (!(month <= static_cast<double>(question.n_months))) break;
        now = static_cast<std::size_t>(month);
        ++months[now - 1];
        age_years = 0.0;
      }
    }
  }
  return months;
}

Replacements replacements_from(double expected, std::vector<int> counts, double confidence_frac) {
  std::sort(counts.begin(), counts.end());
  const auto at = [&](double share) {
    const auto place = static_cast<std::size_t>(share * static_cast<double>(counts.size()));
    return static_cast<double>(counts[std::min(place, counts.size() - 1)]);
  };
  return {expected, at(0.5 - 0.5 * confidence_frac), at(0.5 + 0.5 * confidence_frac)};
}

void forecast(const ServiceLifeQuestion& question, const std::vector<WeightedLaw>& laws, ServiceLifeAnswer& answer) {
  std::vector<double> expected(question.n_months, 0.0);
  for (const WeightedLaw& law : laws) {
    const std::vector<double> own = stats::expected_replacements(law.law, question.in_use, question.n_months);
    for (std::size_t i = 0; i < own.size(); ++i) expected[i] += law.weight * own[i];
  }
  std::vector<std::vector<int>> counts(question.n_months);
  std::vector<int> totals;
  for (std::uint32_t draw = 0; draw < n_futures; ++draw) {
    const std::vector<int> months = drawn_future(question, laws, draw);
    int total = 0;
    for (std::size_t i = 0; i < months.size(); ++i) {
      counts[i].push_back(months[i]);
      total += months[i];
    }
    totals.push_back(total);
    answer.drawn_months.push_back(months);
  }
  double sum = 0.0;
  for (std::size_t i = 0; i < question.n_months; ++i) {
    answer.months.push_back(replacements_from(expected[i], std::move(counts[i]), question.confidence_frac));
    sum += expected[i];
  }
  answer.total = replacements_from(sum, std::move(totals), question.confidence_frac);
}

/// Quantiles over the laws of the share still in use at an age, to a five-hundredth: sorting thousands of laws at every age
/// takes longer than all the rest.
stats::Quantiles shares_in_use(const std::vector<WeightedLaw>& laws, double age_years, double confidence_frac) {
  if (age_years == 0.0) return {1.0, 1.0, 1.0};
  constexpr std::size_t n_bins = 500;
  std::vector<stats::WeightedValue> bins(n_bins);
  for (std::size_t i = 0; i < n_bins; ++i) bins[i].value = (static_cast<double>(i) + 0.5) / n_bins;
  for (const WeightedLaw& law : laws) {
    const double share = stats::share_in_use(law.law, age_years);
    bins[std::min(n_bins - 1, static_cast<std::size_t>(share * n_bins))].weight += law.weight;
  }
  std::erase_if(bins, [](const stats::WeightedValue& bin) { return bin.weight == 0.0; });
  return stats::weighted_quantiles(std::move(bins), confidence_frac);
}

/// From new to twice the longer of the two beliefs' lives.
std::vector<ShareInUse> curve_of(const std::vector<WeightedLaw>& laws, const std::vector<WeightedLaw>& prior,
                                 const ServiceLifeAnswer& answer, double confidence_frac) {
  constexpr int n_steps = 24;
  const double last_years = 2.0 * std::max(answer.median_life_years.high, answer.prior_median_life_years.middle);
  std::vector<ShareInUse> curve;
  for (int i = 0; i <= n_steps; ++i) {
    ShareInUse point;
    point.age_years = last_years * i / n_steps;
    point.here = shares_in_use(laws, point.age_years, confidence_frac);
    point.prior = shares_in_use(prior, point.age_years, confidence_frac).middle;
    curve.push_back(point);
  }
  return curve;
}

/// Two places where the ends would else read the same.
std::string years(const stats::Quantiles& life) {
  constexpr double narrow_years = 0.5;
  if (life.high - life.low < narrow_years) {
    return fmt::format("{:.2f} years ({:.2f} to {:.2f})", life.middle, life.low, life.high);
  }
  return fmt::format("{} years ({} to {})", two_digits(life.middle), two_digits(life.low), two_digits(life.high));
}

}  // namespace

stats::LifePrior prior_from_catalogue(const catalogue::Spread& life_years) {
  expects(0.0 < life_years.low && life_years.low < life_years.high, "a life with a range above 0");
  stats::LifePrior prior;
  prior.median_low_years = life_years.low;
  prior.median_high_years = life_years.high;
  return prior;
}

ServiceLifeAnswer judge_service_life(const ServiceLifeQuestion& question) {
  expects(question.confidence_frac > 0.0 && question.confidence_frac < 1.0, "a confidence between 0 and 1");
  expects(question.n_months >= 1 && question.n_months <= 600, "1 to 600 months");
  ServiceLifeAnswer answer;
  for (const stats::PartLife& life : question.lives) {
    if (std::isfinite(life.failed_by_years)) answer.n_failures += life.n_parts;
  }
  answer.is_too_few = answer.n_failures < least_failures;
  const std::vector<WeightedLaw> prior = stats::weibull_posterior({}, question.prior);
  const std::vector<WeightedLaw> posterior = stats::weibull_posterior(question.lives, question.prior);
  answer.prior_median_life_years = median_lives(prior, question.confidence_frac);
  const std::vector<WeightedLaw>& shown = answer.is_too_few ? prior : posterior;
  answer.median_life_years = median_lives(shown, question.confidence_frac);
  answer.shape = shapes(shown, question.confidence_frac);
  answer.curve = curve_of(posterior, prior, answer, question.confidence_frac);
  const std::string failures = counted(answer.n_failures, "failure", "failures");
  if (answer.is_too_few) {
    answer.sentence =
        fmt::format("{}: too few to say ({} so far; {:.0f} are needed). The catalogue believes: half last {}.",
                    question.part, failures, least_failures, years(answer.prior_median_life_years));
  } else {
    answer.sentence = fmt::format("{}: half last {} here, {} interval, from {}; the catalogue believed {}.",
                                  question.part, years(answer.median_life_years), percent(question.confidence_frac),
                                  failures, years(answer.prior_median_life_years));
  }
  forecast(question, posterior, answer);
  answer.forecast_sentence =
      fmt::format("{}: about {} to replace in {} months ({:.0f} to {:.0f}){}.", question.part,
                  two_digits(answer.total.expected), question.n_months, answer.total.low, answer.total.high,
                  answer.is_too_few ? ", mostly from what the catalogue believes" : "");
  return answer;
}

std::vector<Replacements> replacements_together(const std::vector<ServiceLifeAnswer>& answers, double confidence_frac) {
  expects(!answers.empty(), "parts to add up");
  std::vector<Replacements> together;
  const ServiceLifeAnswer& first = answers.front();
  for (std::size_t month = 0; month < first.months.size(); ++month) {
    std::vector<int> counts(first.drawn_months.size(), 0);
    double expected = 0.0;
    for (const ServiceLifeAnswer& answer : answers) {
      expects(answer.months.size() == first.months.size() && answer.drawn_months.size() == counts.size(),
              "as many months and futures");
      expected += answer.months[month].expected;
      for (std::size_t i = 0; i < counts.size(); ++i) counts[i] += answer.drawn_months[i][month];
    }
    together.push_back(replacements_from(expected, std::move(counts), confidence_frac));
  }
  return together;
}

}  // namespace houseleek::upkeep
