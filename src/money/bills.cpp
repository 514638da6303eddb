// Bills before and after: energy against one's own weather, and what the covering of the roof changed, with its interval.
#include "money/bills.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "base/contract.hpp"
#include "base/number_words.hpp"
#include "numerics/small_linear.hpp"
#include "stats/student.hpp"

namespace houseleek::money {
namespace {

constexpr double year_days = 365.25;
/// Bills beyond the unknowns, so that the scatter is known at all.
constexpr int least_left_over = 4;
/// Below it a column is one of the others over again.
constexpr double least_own_share = 1e-6;

struct Column {
  std::string name;
  std::vector<double> values;
};

double days_of(const BillPeriod& bill) { return static_cast<double>(bill.last_day - bill.first_day + 1); }

/// What of a column, weighted, is left after the columns before it, as a share of its own size.
double own_share(const std::vector<Column>& before, const Column& column, const std::vector<double>& weights) {
  std::vector<std::vector<double>> basis;
  const auto dot = [&](const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += weights[i] * a[i] * b[i];
    return sum;
  };
  const auto without_basis = [&](std::vector<double> values) {
    for (const std::vector<double>& one : basis) {
      const double along = dot(values, one);
      for (std::size_t i = 0; i < values.size(); ++i) values[i] -= along * one[i];
    }
    return values;
  };
  for (const Column& one : before) {
    std::vector<double> rest = without_basis(one.values);
    const double size = std::sqrt(dot(rest, rest));
    for (double& value : rest) value /= size;
    basis.push_back(std::move(rest));
  }
  const std::vector<double> rest = without_basis(column.values);
  const double all = dot(column.values, column.values);
  return all > 0.0 ? dot(rest, rest) / all : 0.0;
}

std::string sentence_of(const BillAnswer& answer, const std::vector<std::string>& step_names, double confidence_frac) {
  const std::string bills = fmt::format("{} bills, {} of them with hardly a module and {} with most", answer.n_bills,
                                        answer.n_before, answer.n_after);
  const std::string steps = step_names.empty() ? "" : fmt::format("; counted apart: {}", fmt::join(step_names, ", "));
  switch (answer.outcome) {
    case BillOutcome::too_few:
      return fmt::format("{}: too few bills to say ({}; {} of each are needed, and {} beyond the unknowns).",
                         answer.item, bills, least_bills, least_left_over);
    case BillOutcome::not_separable:
      return fmt::format("{}: cannot be said: in these bills the modules came together with something else ({}){}.",
                         answer.item, bills, steps);
    case BillOutcome::not_told_apart:
      return fmt::format(
          "{}: not told apart from before: between {:.0f} kWh a year less and {:.0f} more, {} interval ({}){}.",
          answer.item, answer.high_kwh_per_year, -answer.low_kwh_per_year, percent(confidence_frac), bills, steps);
    case BillOutcome::less:
      return fmt::format("{}: {:.0f} kWh a year less with the modules, {} interval {:.0f} to {:.0f} ({}){}.",
                         answer.item, *answer.less_kwh_per_year, percent(confidence_frac), answer.low_kwh_per_year,
                         answer.high_kwh_per_year, bills, steps);
    case BillOutcome::more:
      return fmt::format("{}: {:.0f} kWh a year MORE with the modules, {} interval {:.0f} to {:.0f} ({}){}.",
                         answer.item, -*answer.less_kwh_per_year, percent(confidence_frac), -answer.high_kwh_per_year,
                         -answer.low_kwh_per_year, bills, steps);
  }
  return "";
}

}  // namespace

BillAnswer judge_bills(const BillQuestion& question) {
  const std::vector<BillPeriod>& bills = question.bills;
  BillAnswer answer;
  answer.item = question.item;
  answer.n_bills = static_cast<int>(bills.size());
  std::vector<double> weights;
  double cold_k = 0.0;
  double warm_k = 0.0;
  double all_days = 0.0;
  for (const BillPeriod& bill : bills) {
    expects(bill.last_day >= bill.first_day && bill.steps.size() == question.step_names.size(),
            "days in order and a share for every step");
    const double days = days_of(bill);
    weights.push_back(days);
    all_days += days;
    cold_k += days * bill.cold_k;
    warm_k += days * bill.warm_k;
    if (bill.covered_frac < hardly_frac) ++answer.n_before;
    if (bill.covered_frac >= mostly_frac) ++answer.n_after;
  }
  const auto finish = [&](BillOutcome outcome) {
    answer.outcome = outcome;
    answer.sentence = sentence_of(answer, question.step_names, question.confidence_frac);
    return answer;
  };
  if (answer.n_before < least_bills || answer.n_after < least_bills) return finish(BillOutcome::too_few);
  cold_k /= all_days;
  warm_k /= all_days;

  std::vector<Column> columns;
  const auto add = [&](const std::string& name, const std::function<double(const BillPeriod&)>& value) {
    Column column{name, {}};
    for (const BillPeriod& bill : bills) column.values.push_back(value(bill));
    if (own_share(columns, column, weights) < least_own_share) return false;
    columns.push_back(std::move(column));
    return true;
  };
  (void)add("always", [](const BillPeriod&) { return 1.0; });
  const bool has_cold = add("cold", [](const BillPeriod& bill) { return bill.cold_k; });
  const bool has_warm = add("warm", [](const BillPeriod& bill) { return bill.warm_k; });
  for (std::size_t i = 0; i < question.step_names.size(); ++i) {
    (void)add(question.step_names[i], [i](const BillPeriod& bill) { return bill.steps[i]; });
  }
  const std::size_t first_gain = columns.size();
  std::vector<double> contrast;  // of the gains
  if (has_cold && add("covered cold", [](const BillPeriod& bill) { return bill.covered_frac * bill.cold_k; })) {
    contrast.push_back(cold_k);
  }
  if (has_warm && add("covered warm", [](const BillPeriod& bill) { return bill.covered_frac * bill.warm_k; })) {
    contrast.push_back(warm_k);
  }
  const std::size_t wanted_gains = static_cast<std::size_t>(has_cold) + static_cast<std::size_t>(has_warm);
  if (contrast.empty() || contrast.size() < wanted_gains) return finish(BillOutcome::not_separable);
  const std::size_t p = columns.size();
  const int left_over = answer.n_bills - static_cast<int>(p);
  if (left_over < least_left_over) return finish(BillOutcome::too_few);

  // Normal equations of columns that are scaled to one; few and told apart above.
  std::vector<double> scale(p, 0.0);
  for (std::size_t j = 0; j < p; ++j) {
    for (std::size_t i = 0; i < bills.size(); ++i) scale[j] += weights[i] * columns[j].values[i] * columns[j].values[i];
    scale[j] = std::sqrt(scale[j]);
  }
  std::vector<double> normal(p * p, 0.0);
  std::vector<double> right(p, 0.0);
  for (std::size_t i = 0; i < bills.size(); ++i) {
    const double per_day = bills[i].energy_kwh / days_of(bills[i]);
    for (std::size_t j = 0; j < p; ++j) {
      const double x = columns[j].values[i] / scale[j];
      right[j] += weights[i] * x * per_day;
      for (std::size_t k = 0; k < p; ++k) normal[j * p + k] += weights[i] * x * columns[k].values[i] / scale[k];
    }
  }
  std::vector<int> exchanged(p);
  if (!numerics::factor_dense(normal, exchanged)) return finish(BillOutcome::not_separable);
  std::vector<double> solution = right;
  numerics::solve_dense(normal, exchanged, solution);
  double squares = 0.0;
  for (std::size_t i = 0; i < bills.size(); ++i) {
    double rest = bills[i].energy_kwh / days_of(bills[i]);
    for (std::size_t j = 0; j < p; ++j) rest -= solution[j] * columns[j].values[i] / scale[j];
    squares += weights[i] * rest * rest;
  }
  // Variance of the contrast c: s2 c' N^-1 c.
  std::vector<double> along(p, 0.0);
  double less = 0.0;
  for (std::size_t g = 0; g < contrast.size(); ++g) {
    const std::size_t j = first_gain + g;
    along[j] = year_days * contrast[g] / scale[j];
    less -= along[j] * solution[j];
  }
  std::vector<double> solved = along;
  numerics::solve_dense(normal, exchanged, solved);
  double variance = 0.0;
  for (std::size_t j = 0; j < p; ++j) variance += along[j] * solved[j];
  const double error = std::sqrt(std::max(0.0, variance * squares / left_over));
  const double half = stats::student_quantile(0.5 + 0.5 * question.confidence_frac, left_over) * error;
  answer.less_kwh_per_year = less;
  answer.low_kwh_per_year = less - half;
  answer.high_kwh_per_year = less + half;
  if (answer.low_kwh_per_year > 0.0) return finish(BillOutcome::less);
  return finish(answer.high_kwh_per_year < 0.0 ? BillOutcome::more : BillOutcome::not_told_apart);
}

}  // namespace houseleek::money
