// R's survival package as a second opinion: the same invented lives through both, and the lives of its own sources.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>

#include "stats/kaplan_meier.hpp"
#include "stats/sampling.hpp"
#include "stats/weibull_lives.hpp"
#include "support/temporary_folder.hpp"

namespace houseleek::stats {
namespace {

constexpr double still_in_use = std::numeric_limits<double>::infinity();

struct Case {
  std::vector<PartLife> lives;
  bool has_steps = true;  // no failure between two looks
};

/// Lives by a Weibull law, looked at as households look: some failures seen at once, some between two looks, some parts
/// in use. The ages are invented.
Case invented_case(std::uint32_t draw, bool has_looks) {
  const RandomVariable age = random_variable(71, "age");
  const RandomVariable look = random_variable(71, "look");
  Case made;
  made.has_steps = !has_looks;
  const double shape = 0.8 + 0.35 * draw;
  for (std::uint32_t i = 0; i < 40; ++i) {
    const double life = 5.0 * std::pow(-std::log(random_uniform(age, {draw, 0, i})), 1.0 / shape);
    const double observed = 2.0 + 4.0 * random_uniform(look, {draw, 0, i});
    if (life > observed) {
      made.lives.push_back({observed, still_in_use, 0.0, 1.0});
    } else if (has_looks && i % 3 == 0) {
      made.lives.push_back({std::floor(life), std::floor(life) + 1.0, 0.0, 1.0});
    } else {
      made.lives.push_back({life, life, 0.0, 1.0});
    }
  }
  return made;
}

std::map<std::string, Case> all_cases() {
  std::map<std::string, Case> cases;
  for (std::uint32_t draw = 0; draw < 8; ++draw) cases[fmt::format("exact{}", draw)] = invented_case(draw, false);
  for (std::uint32_t draw = 0; draw < 8; ++draw) cases[fmt::format("looks{}", draw)] = invented_case(draw, true);
  Case units;  // [nist_handbook] 8.4.1.2
  units.lives.push_back({500.0, still_in_use, 0.0, 10.0});
  for (const double h : {54.0, 187.0, 216.0, 240.0, 244.0, 335.0, 361.0, 373.0, 375.0, 386.0}) {
    units.lives.push_back({h, h, 0.0, 1.0});
  }
  cases["units"] = units;
  return cases;
}

std::string number(double value) { return std::isfinite(value) ? fmt::format("{:.17g}", value) : "NA"; }

/// What R prints: lines of words and numbers.
std::vector<std::vector<std::string>> run_r(const std::map<std::string, Case>& cases) {
  const tests::TemporaryFolder folder;
  std::string csv = "case,low,high,n\n";
  for (const auto& [name, one] : cases) {
    for (const PartLife& life : one.lives) {
      // A part that was only seen new is open below.
      const bool is_open = life.alive_at_years == 0.0;
      csv += fmt::format("{},{},{},{}\n", name, is_open ? "NA" : number(life.alive_at_years),
                         number(life.failed_by_years), life.n_parts);
    }
  }
  const std::string data = folder.write("lives.csv", csv);
  const std::string out = folder.path() + "/out";
  const std::string command =
      fmt::format("Rscript --vanilla '{}/tests/stats/survival.R' '{}' > '{}'", HOUSELEEK_SOURCE_DIR, data, out);
  EXPECT_EQ(std::system(command.c_str()), 0) << "Rscript with the package survival (Debian r-cran-survival)";
  std::ifstream stream(out);
  std::vector<std::vector<std::string>> lines;
  for (std::string line; std::getline(stream, line);) {
    std::istringstream words(line);
    lines.emplace_back(std::istream_iterator<std::string>(words), std::istream_iterator<std::string>());
  }
  return lines;
}

TEST(RSurvival, TheSameFitsAndSteps) {
  const std::map<std::string, Case> cases = all_cases();
  const auto lines = run_r(cases);
  std::size_t n_fits = 0;
  std::map<std::string, std::size_t> n_steps;
  for (const std::vector<std::string>& line : lines) {
    const Case& one = cases.at(line.at(1));
    const auto value = [&line](std::size_t i) { return std::stod(line.at(i)); };
    if (line[0] == "weibull") {
      ++n_fits;
      const WeibullFit fit = fit_weibull(one.lives);
      EXPECT_NEAR(fit.law.shape, value(2), 1e-5 * value(2)) << line[1];
      EXPECT_NEAR(fit.law.scale_years, value(3), 1e-5 * value(3)) << line[1];
      EXPECT_NEAR(fit.log_likelihood, value(4), 1e-7 * std::fabs(value(4))) << line[1];
      EXPECT_NEAR(fit.variance_log_scale, value(5), 1e-4 * value(5)) << line[1];
      EXPECT_NEAR(fit.variance_log_sigma, value(6), 1e-4 * value(6)) << line[1];
      EXPECT_NEAR(fit.covariance, value(7), 1e-4 * std::sqrt(value(5) * value(6))) << line[1];
      continue;
    }
    ASSERT_EQ(line[0], "steps");
    const std::vector<SurvivalStep> steps = kaplan_meier(one.lives);
    const SurvivalStep& step = steps.at(n_steps[line[1]]++);
    EXPECT_NEAR(step.age_years, value(2), 1e-9) << line[1];
    EXPECT_NEAR(step.share_in_use, value(3), 1e-9) << line[1];
    if (value(3) <= 0.0) continue;
    EXPECT_NEAR(step.standard_error, value(4), 1e-8) << line[1];
  }
  EXPECT_EQ(n_fits, cases.size());
  for (const auto& [name, one] : cases) {
    EXPECT_EQ(n_steps[name], one.has_steps ? kaplan_meier(one.lives).size() : 0U) << name;
  }
}

}  // namespace
}  // namespace houseleek::stats
