// The verdict of a trial: days are repeats of a module, modules are repeats of a recipe.
#include "trials/judge.hpp"

#include <algorithm>
#include <cmath>
#include <eigen3/Eigen/Dense>
#include <map>
#include <set>

#include "base/contract.hpp"
#include "stats/holm.hpp"
#include "stats/mixed_model.hpp"
#include "stats/student.hpp"
#include "trials/judge_words.hpp"

namespace houseleek::trials {

namespace {

constexpr double power_wanted_frac = 0.8;
constexpr std::size_t most_days = 3650;
constexpr std::size_t most_modules = 200;

std::vector<std::string> sides_of(const std::vector<ModuleDays>& modules) {
  std::vector<std::string> sides;
  for (const ModuleDays& module : modules) {
    if (std::find(sides.begin(), sides.end(), module.side) == sides.end()) sides.push_back(module.side);
  }
  return sides;
}

std::vector<ModuleDays> of_side(const std::vector<ModuleDays>& modules, const std::string& side) {
  std::vector<ModuleDays> own;
  for (const ModuleDays& module : modules) {
    if (module.side == side) own.push_back(module);
  }
  return own;
}

void expect_tidy(const std::vector<ModuleDays>& modules) {
  std::set<std::string> names;
  for (const ModuleDays& module : modules) {
    expects(names.insert(module.module).second, "module names that differ");
    std::set<int> days;
    for (const DayValue& day : module.days) {
      expects(days.insert(day.day).second && std::isfinite(day.value), "one finite value a day");
    }
  }
}

std::vector<ModuleDays> without_flagged(std::vector<ModuleDays> modules) {
  for (ModuleDays& module : modules) {
    std::erase_if(module.days, [](const DayValue& day) { return !day.flag.empty(); });
  }
  return modules;
}

/// The daily difference of side means over days that every module of both has.
struct DayDifferences {
  std::vector<double> values;
  std::size_t n_partial = 0;
  std::size_t n_flagged = 0;
};

DayDifferences day_differences(const std::vector<ModuleDays>& side, const std::vector<ModuleDays>& against) {
  struct Sum {
    double difference = 0.0;
    std::size_t n = 0;
    bool is_flagged = false;
  };
  std::map<int, Sum> days;
  const auto add = [&](const std::vector<ModuleDays>& modules, double sign) {
    for (const ModuleDays& module : modules) {
      for (const DayValue& day : module.days) {
        Sum& sum = days[day.day];
        sum.difference += sign * day.value / static_cast<double>(modules.size());
        ++sum.n;
        sum.is_flagged = sum.is_flagged || !day.flag.empty();
      }
    }
  };
  add(side, 1.0);
  add(against, -1.0);
  DayDifferences differences;
  for (const auto& [day, sum] : days) {
    if (sum.is_flagged) ++differences.n_flagged;
    if (sum.n == side.size() + against.size()) {
      differences.values.push_back(sum.difference);
    } else {
      ++differences.n_partial;
    }
  }
  return differences;
}

bool varies(const std::vector<double>& values) {
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  return *most - *least > 1e-9 * std::max(std::fabs(*most), std::fabs(*least));
}

/// An estimate before Holm has said with what confidence its interval is to be drawn.
struct Raw {
  double value = 0.0;
  double standard_error = 0.0;
  double degrees_of_freedom = 0.0;
};

std::optional<Raw> from_days(const std::vector<double>& differences, double confidence_frac) {
  if (differences.size() < least_days || !varies(differences)) return std::nullopt;
  const stats::Estimate mean = stats::long_run_mean(differences, confidence_frac);
  return Raw{mean.value, mean.standard_error, mean.degrees_of_freedom};
}

/// One model of all sides that have modules enough.
class RecipeModel {
 public:
  RecipeModel(const std::vector<ModuleDays>& modules, double confidence_frac) {
    for (const std::string& side : sides_of(modules)) {
      if (of_side(modules, side).size() < least_modules_for_recipe) continue;
      sides_.push_back(side);
    }
    if (sides_.size() < 2) return;
    for (const ModuleDays& module : modules) {
      if (has(module.side)) used_.push_back(module);
    }
    for (const ModuleDays& module : used_) {
      if (module.days.size() < least_days) return;
    }
    const std::optional<std::vector<double>> values = module_values(used_);
    if (!values) return;
    data_.values = *values;
    if (!varies(data_.values)) return;
    for (const std::string& side : sides_) {
      std::vector<double> column;
      for (const ModuleDays& module : used_) column.push_back(module.side == side ? 1.0 : 0.0);
      data_.fixed.push_back(std::move(column));
    }
    add_blocks(&ModuleDays::block);
    add_blocks(&ModuleDays::second_block);
    for (std::size_t i = 0; i < sides_.size(); ++i) {
      for (std::size_t j = 0; j < sides_.size(); ++j) {
        if (i == j) continue;
        std::vector<double> weights(data_.fixed.size(), 0.0);
        weights[i] = 1.0;
        weights[j] = -1.0;
        data_.contrasts.push_back(std::move(weights));
        pairs_.emplace_back(sides_[i], sides_[j]);
      }
    }
    if (!has_scatter()) return;
    fit_ = stats::fit_mixed_model(data_, confidence_frac);
  }

  [[nodiscard]] bool has(const std::string& side) const {
    return std::find(sides_.begin(), sides_.end(), side) != sides_.end();
  }

  /// Sides both in the model; nothing where the values do not vary or are too few.
  [[nodiscard]] std::optional<Raw> compare(const std::string& side, const std::string& against) const {
    if (!fit_) return std::nullopt;
    const auto place = std::find(pairs_.begin(), pairs_.end(), std::pair{side, against});
    expects(place != pairs_.end(), "two sides of the model");
    const stats::Estimate& e = fit_->contrasts[static_cast<std::size_t>(place - pairs_.begin())];
    return Raw{e.value, e.standard_error, e.degrees_of_freedom};
  }

  /// Variance of one module's value about its side (and block).
  [[nodiscard]] double module_variance() const { return fit_ ? fit_->variances.back() : 0.0; }
  [[nodiscard]] bool has_blocks() const { return has_blocks_; }

 private:
  /// Blocks that hold every side equally often are fixed: nothing of the difference lies between them, and the interval
  /// is exact. Others are random, so that what lies between them is not lost.
  void add_blocks(std::string ModuleDays::*which) {
    std::map<std::string, int> labels;
    std::map<std::pair<std::string, std::string>, int> counts;  // by block and side
    std::vector<int> own;
    for (const ModuleDays& module : used_) {
      const std::string& block = module.*which;
      if (block.empty()) return;
      own.push_back(labels.try_emplace(block, static_cast<int>(labels.size())).first->second);
      ++counts[{block, module.side}];
    }
    // A block of one module, or one block for all, tells nothing apart from the module or from the side.
    if (labels.size() < 2 || labels.size() == used_.size()) return;
    has_blocks_ = true;
    const bool is_complete =
        counts.size() == labels.size() * sides_.size() &&
        std::all_of(counts.begin(), counts.end(), [&](const auto& c) { return c.second == counts.begin()->second; });
    if (!is_complete) {
      if (data_.random_groups.empty() || data_.random_groups.front() != own) data_.random_groups.push_back(own);
      return;
    }
    const std::size_t n_before = data_.fixed.size();
    for (int label = 1; label < static_cast<int>(labels.size()); ++label) {
      std::vector<double> column;
      for (const int in : own) column.push_back(in == label ? 1.0 : 0.0);
      data_.fixed.push_back(std::move(column));
    }
    // Second blocks that only repeat the first, or leave no scatter to judge by, are none.
    const Eigen::MatrixXd x = fixed_columns();
    if (x.cols() >= x.rows() || x.colPivHouseholderQr().rank() < x.cols()) data_.fixed.resize(n_before);
  }

  [[nodiscard]] Eigen::MatrixXd fixed_columns() const {
    Eigen::MatrixXd x(static_cast<Eigen::Index>(used_.size()), static_cast<Eigen::Index>(data_.fixed.size()));
    for (Eigen::Index j = 0; j < x.cols(); ++j) {
      const std::vector<double>& column = data_.fixed[static_cast<std::size_t>(j)];
      x.col(j) = Eigen::Map<const Eigen::VectorXd>(column.data(), x.rows());
    }
    return x;
  }

  /// Whether modules scatter about their sides (and blocks) at all; readings in coarse steps may not.
  [[nodiscard]] bool has_scatter() const {
    const Eigen::MatrixXd x = fixed_columns();
    const Eigen::VectorXd y = Eigen::Map<const Eigen::VectorXd>(data_.values.data(), x.rows());
    const Eigen::VectorXd rest = y - x * x.colPivHouseholderQr().solve(y);
    return rest.norm() > 1e-9 * y.norm();
  }

  std::vector<std::string> sides_;
  std::vector<ModuleDays> used_;
  stats::MixedData data_;
  bool has_blocks_ = false;
  std::vector<std::pair<std::string, std::string>> pairs_;
  std::optional<stats::MixedFit> fit_;
};

/// Long-run variance of a module's days about the days of all, averaged over modules: what more days would shrink.
double day_variance_of(const std::vector<ModuleDays>& modules) {
  std::map<int, std::pair<double, std::size_t>> sums;
  for (const ModuleDays& module : modules) {
    for (const DayValue& day : module.days) {
      sums[day.day].first += day.value;
      ++sums[day.day].second;
    }
  }
  double sum = 0.0;
  for (const ModuleDays& module : modules) {
    std::vector<double> rest;
    for (const DayValue& day : module.days) {
      const auto& [total, n] = sums.at(day.day);
      if (n == modules.size()) rest.push_back(day.value - total / static_cast<double>(n));
    }
    if (rest.size() < least_days) return 0.0;
    sum += stats::long_run_variance(rest);
  }
  // The mean of all takes part of each module's own days away.
  const auto n = static_cast<double>(modules.size());
  return sum / n * n / (n - 1.0);
}

/// The least number from `least` to `most` that tells, where more tell better; nothing where not even `most` does.
template <class Tells>
std::optional<std::size_t> least_that_tells(std::size_t least, std::size_t most, const Tells& tells) {
  if (!tells(most)) return std::nullopt;
  while (least < most) {
    const std::size_t middle = least + (most - least) / 2;
    if (tells(middle)) {
      most = middle;
    } else {
      least = middle + 1;
    }
  }
  return most;
}

bool tells(double difference, double squared_error, double freedom, double confidence_frac) {
  if (squared_error <= 0.0) return true;
  return stats::power_of_t({difference, std::sqrt(squared_error), freedom, confidence_frac}) >= power_wanted_frac;
}

std::optional<std::size_t> modules_needed(double module_variance, bool has_blocks, double difference,
                                          double confidence_frac) {
  return least_that_tells(least_modules_for_recipe, most_modules, [&](std::size_t n) {
    const auto each = static_cast<double>(n);
    const double freedom = has_blocks ? each - 1.0 : 2.0 * (each - 1.0);
    return tells(difference, 2.0 * module_variance / each, freedom, confidence_frac);
  });
}

struct Pair {
  SideComparison comparison;
  std::optional<Raw> raw;
  std::optional<Raw> raw_without_flagged;
};

Pair compare(const std::vector<ModuleDays>& modules, const RecipeModel& model, const RecipeModel& unflagged_model,
             const std::string& side, const std::string& against, const JudgeOptions& options) {
  Pair pair;
  SideComparison& c = pair.comparison;
  const std::vector<ModuleDays> own = of_side(modules, side);
  const std::vector<ModuleDays> other = of_side(modules, against);
  const DayDifferences days = day_differences(own, other);
  c.side = side;
  c.against = against;
  c.n_modules_side = own.size();
  c.n_modules_against = other.size();
  c.n_days = days.values.size();
  c.n_days_partial = days.n_partial;
  c.n_days_flagged = days.n_flagged;
  if (days.values.size() >= 2) c.day_correlation = stats::lag_one_correlation(days.values);
  c.scope = model.has(side) && model.has(against) ? Scope::recipe : Scope::these_modules;
  if (c.scope == Scope::recipe) {
    pair.raw = model.compare(side, against);
    if (days.n_flagged > 0 && unflagged_model.has(side) && unflagged_model.has(against)) {
      pair.raw_without_flagged = unflagged_model.compare(side, against);
    }
  } else {
    pair.raw = from_days(days.values, options.confidence_frac);
    if (days.n_flagged > 0) {
      pair.raw_without_flagged =
          from_days(day_differences(without_flagged(own), without_flagged(other)).values, options.confidence_frac);
    }
  }
  return pair;
}

MoreNeeded more_needed(const std::vector<ModuleDays>& modules, const RecipeModel& model, const Pair& pair,
                       const JudgeOptions& options) {
  const SideComparison& c = pair.comparison;
  MoreNeeded more;
  more.difference = options.wanted_difference > 0.0 ? options.wanted_difference : std::fabs(pair.raw->value);
  if (more.difference == 0.0) return more;
  const double confidence = c.interval_confidence_frac;
  const double squared = pair.raw->standard_error * pair.raw->standard_error;
  const std::size_t n_days = c.scope == Scope::recipe ? c.n_days + c.n_days_partial : c.n_days;
  double share_of_modules = 0.0;  // of the squared error: what no number of days takes away
  if (c.scope == Scope::recipe) {
    more.modules = modules_needed(model.module_variance(), model.has_blocks(), more.difference, confidence);
    std::vector<ModuleDays> both = of_side(modules, c.side);
    const std::vector<ModuleDays> other = of_side(modules, c.against);
    both.insert(both.end(), other.begin(), other.end());
    const double day_part = day_variance_of(both) / static_cast<double>(n_days);
    share_of_modules = std::max(0.0, 1.0 - day_part / model.module_variance());
  }
  more.days = least_that_tells(n_days, most_days, [&](std::size_t days) {
    const double left = static_cast<double>(n_days) / static_cast<double>(days);
    return tells(more.difference, squared * (share_of_modules + (1.0 - share_of_modules) * left),
                 pair.raw->degrees_of_freedom, confidence);
  });
  return more;
}

}  // namespace

std::optional<std::vector<double>> module_values(const std::vector<ModuleDays>& modules) {
  const auto n = static_cast<Eigen::Index>(modules.size());
  std::map<int, std::vector<std::pair<Eigen::Index, double>>> by_day;
  for (Eigen::Index i = 0; i < n; ++i) {
    for (const DayValue& day : modules[static_cast<std::size_t>(i)].days) by_day[day.day].emplace_back(i, day.value);
  }
  expects(n > 0 && !by_day.empty(), "modules with days");
  // Days eliminated: what is left ties the modules together, up to a common shift that the last equation fixes.
  Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(n, n);
  Eigen::VectorXd right = Eigen::VectorXd::Zero(n);
  double mean_of_day_means = 0.0;
  Eigen::VectorXd share_of_days = Eigen::VectorXd::Zero(n);
  for (const auto& [day, cells] : by_day) {
    const auto n_cells = static_cast<double>(cells.size());
    double day_mean = 0.0;
    for (const auto& [i, value] : cells) day_mean += value / n_cells;
    mean_of_day_means += day_mean / static_cast<double>(by_day.size());
    for (const auto& [i, value] : cells) {
      matrix(i, i) += 1.0;
      right[i] += value - day_mean;
      share_of_days[i] += 1.0 / n_cells / static_cast<double>(by_day.size());
      for (const auto& [j, other] : cells) matrix(i, j) -= 1.0 / n_cells;
    }
  }
  // sum d_t = 0: the day means less the modules in them must sum to nothing.
  matrix += share_of_days * share_of_days.transpose();
  right += share_of_days * mean_of_day_means;
  const Eigen::FullPivLU<Eigen::MatrixXd> factor(matrix);
  if (factor.rank() < n) return std::nullopt;
  const Eigen::VectorXd values = factor.solve(right);
  return std::vector<double>(values.begin(), values.end());
}

TrialVerdict judge(const std::vector<ModuleDays>& modules, const JudgeOptions& options) {
  expect_tidy(modules);
  const std::vector<std::string> sides = sides_of(modules);
  expects(sides.size() >= 2, "two sides or more");
  expects(
      options.reference_side.empty() || std::find(sides.begin(), sides.end(), options.reference_side) != sides.end(),
      "a reference that is one of the sides");
  const RecipeModel model(modules, options.confidence_frac);
  const RecipeModel unflagged_model(without_flagged(modules), options.confidence_frac);
  std::vector<Pair> pairs;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    for (std::size_t j = 0; j < sides.size(); ++j) {
      const bool is_wanted = options.reference_side.empty() ? i < j : (i != j && sides[j] == options.reference_side);
      if (is_wanted) pairs.push_back(compare(modules, model, unflagged_model, sides[i], sides[j], options));
    }
  }
  std::vector<double> shares;
  for (const Pair& pair : pairs) {
    if (pair.raw) {
      shares.push_back(
          stats::student_two_sided_share(pair.raw->value / pair.raw->standard_error, pair.raw->degrees_of_freedom));
    }
  }
  const std::vector<stats::HolmStep> steps = stats::holm_steps(shares, options.confidence_frac);
  TrialVerdict verdict;
  std::size_t next = 0;
  for (Pair& pair : pairs) {
    SideComparison& c = pair.comparison;
    c.interval_confidence_frac = options.confidence_frac;
    if (pair.raw) {
      const stats::HolmStep& step = steps[next++];
      const auto estimate = [&](const Raw& raw) {
        return stats::make_estimate(raw.value, raw.standard_error, raw.degrees_of_freedom,
                                    step.interval_confidence_frac);
      };
      c.interval_confidence_frac = step.interval_confidence_frac;
      c.adjusted_share = step.adjusted_share;
      c.difference = estimate(*pair.raw);
      if (pair.raw_without_flagged) c.without_flagged = estimate(*pair.raw_without_flagged);
      c.outcome = !step.is_told_apart     ? Outcome::not_told_apart
                  : pair.raw->value > 0.0 ? Outcome::higher
                                          : Outcome::lower;
      if (c.outcome == Outcome::not_told_apart) c.more = more_needed(modules, model, pair, options);
    }
    c.sentence = sentence_of(c, options);
    verdict.comparisons.push_back(c);
  }
  verdict.notes = notes_of(verdict.comparisons);
  return verdict;
}

}  // namespace houseleek::trials
