// A few properties of a model fitted to readings.
#include "trials/fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <eigen3/Eigen/Dense>
#include <limits>
#include <map>
#include <set>

#include "base/contract.hpp"
#include "numerics/least_squares.hpp"
#include "stats/long_run.hpp"
#include "stats/student.hpp"
#include "trials/judge.hpp"

namespace houseleek::trials {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double most_condition = 30.0;  // beyond, slopes are called alike, [belsley1980]
constexpr double most_correlation = 0.97;
constexpr double bend = 2.0;  // times that the sum of squares may rise faster or slower than foreseen

double root_mean_square(double sum_of_squares, std::size_t n) {
  return std::sqrt(sum_of_squares / static_cast<double>(n));
}

/// The readings that are fitted, and the model seen through them.
struct Fitted {
  std::vector<std::size_t> kept;  // places in `observed`
  numerics::LeastSquaresProblem problem;
};

std::vector<double> run(const FitQuestion& question, std::span<const double> properties) {
  std::vector<double> answer = question.model(properties);
  expects(answer.size() == question.observed.size(), "a model answer for each reading");
  return answer;
}

Fitted make_problem(const FitQuestion& question) {
  Fitted fitted;
  const std::set<int> held_back(question.held_back_days.begin(), question.held_back_days.end());
  for (std::size_t i = 0; i < question.observed.size(); ++i) {
    if (!held_back.contains(question.day[i])) fitted.kept.push_back(i);
  }
  for (const FitProperty& property : question.properties) {
    fitted.problem.start.push_back(property.start);
    fitted.problem.low.push_back(property.low);
    fitted.problem.high.push_back(property.high);
  }
  fitted.problem.n_residuals = fitted.kept.size();
  fitted.problem.relative_step = question.relative_step;
  fitted.problem.residuals = [&question, kept = fitted.kept](std::span<const double> p, std::span<double> residuals) {
    const std::vector<double> answer = run(question, p);
    for (std::size_t i = 0; i < kept.size(); ++i) residuals[i] = answer[kept[i]] - question.observed[kept[i]];
  };
  return fitted;
}

double sum_of_squares(const FitQuestion& question, std::span<const double> properties, bool is_held_back) {
  const std::set<int> held_back(question.held_back_days.begin(), question.held_back_days.end());
  const std::vector<double> answer = run(question, properties);
  double sum = 0.0;
  for (std::size_t i = 0; i < answer.size(); ++i) {
    if (held_back.contains(question.day[i]) == is_held_back) sum += std::pow(answer[i] - question.observed[i], 2);
  }
  return sum;
}

void warn(FitAnswer& answer, FitWarningKind kind, std::vector<std::string> names, const std::string& sentence) {
  answer.warnings.push_back({kind, std::move(names), sentence});
}

/// Looks for properties that do nothing, and for those whose effects look alike. False where no interval can be had.
bool look_at_slopes(const FitQuestion& question, const MatrixXd& slopes, FitAnswer& answer) {
  const VectorXd norms = slopes.colwise().norm().transpose();
  answer.condition = std::numeric_limits<double>::infinity();
  bool has_all = true;
  for (Index j = 0; j < norms.size(); ++j) {
    const FitProperty& property = question.properties[static_cast<std::size_t>(j)];
    // Over its whole range it would move the readings by less than a millionth of their own misfit.
    const double effect = norms[j] * (property.high - property.low) / std::sqrt(static_cast<double>(slopes.rows()));
    if (effect > 1e-6 * answer.rms_fitted && effect > 0.0) continue;
    has_all = false;
    warn(answer, FitWarningKind::no_effect, {property.name},
         fmt::format("{} moves none of these readings: nothing can be said of it.", property.name));
  }
  if (!has_all) return false;
  const MatrixXd scaled = slopes * norms.cwiseInverse().asDiagonal();
  const Eigen::JacobiSVD<MatrixXd> svd(scaled, Eigen::ComputeThinU | Eigen::ComputeThinV);
  const VectorXd& singular = svd.singularValues();
  const double least = singular[singular.size() - 1];
  if (least <= 1e-10 * singular[0]) {
    std::vector<std::string> names;
    std::string text;
    const VectorXd direction = svd.matrixV().col(singular.size() - 1);
    for (Index j = 0; j < direction.size(); ++j) {
      if (std::fabs(direction[j]) < 0.1) continue;
      names.push_back(question.properties[static_cast<std::size_t>(j)].name);
      text += (text.empty() ? "" : " and ") + names.back();
    }
    warn(answer, FitWarningKind::not_told_apart, names,
         fmt::format("{} cannot be told apart at all: one undoes what the other does.", text));
    return false;
  }
  answer.condition = singular[0] / least;
  return true;
}

void look_at_correlations(const FitQuestion& question, const MatrixXd& inverse, FitAnswer& answer) {
  const Index p = inverse.rows();
  bool is_any = false;
  for (Index i = 0; i < p; ++i) {
    for (Index j = 0; j < p; ++j) {
      const double correlation = inverse(i, j) / std::sqrt(inverse(i, i) * inverse(j, j));
      answer.correlations.push_back(correlation);
      if (j <= i || std::fabs(correlation) < most_correlation) continue;
      is_any = true;
      const std::string& one = question.properties[static_cast<std::size_t>(i)].name;
      const std::string& other = question.properties[static_cast<std::size_t>(j)].name;
      warn(answer, FitWarningKind::not_told_apart, {one, other},
           fmt::format(
               "{} and {} are hardly told apart by these readings (correlation {:.2f}): fix one of them, or read "
               "at other hours or another place.",
               one, other, correlation));
    }
  }
  if (!is_any && answer.condition > most_condition) {
    warn(answer, FitWarningKind::not_told_apart, {},
         fmt::format("Together these properties are hardly told apart by these readings (condition {:.0f}): fit fewer.",
                     answer.condition));
  }
}

/// Long-run errors from what each day adds to the estimates.
void add_intervals(const FitQuestion& question, const Fitted& fitted, const numerics::LeastSquaresFit& fit,
                   const MatrixXd& slopes, const MatrixXd& inverse, FitAnswer& answer) {
  const Index p = slopes.cols();
  std::map<int, VectorXd> by_day;
  for (std::size_t i = 0; i < fitted.kept.size(); ++i) {
    VectorXd& sum = by_day.try_emplace(question.day[fitted.kept[i]], VectorXd::Zero(p)).first->second;
    sum += inverse * slopes.row(static_cast<Index>(i)).transpose() * fit.residuals[i];
  }
  const auto n_days = static_cast<double>(by_day.size());
  for (Index k = 0; k < p; ++k) {
    std::vector<double> parts;
    for (const auto& [day, sum] : by_day) parts.push_back(sum[k]);
    const double variance = n_days * stats::long_run_variance(parts) * n_days / (n_days - static_cast<double>(p));
    FittedProperty& property = answer.properties[static_cast<std::size_t>(k)];
    const double error = std::sqrt(variance);
    const double reach =
        stats::student_quantile(0.5 + 0.5 * question.confidence_frac, stats::n_long_run_cosines) * error;
    property.standard_error = error;
    property.low = property.value - reach;
    property.high = property.value + reach;
    const FitProperty& asked = question.properties[static_cast<std::size_t>(k)];
    if (2.0 * reach >= asked.high - asked.low) {
      warn(
          answer, FitWarningKind::no_information, {asked.name},
          fmt::format("{}: the interval is wider than all that was thought possible; these readings say nothing of it.",
                      asked.name));
    }
  }
}

/// Holds each property at its interval's ends and fits the rest: the sum should rise as the slopes foresaw.
void profile(const FitQuestion& question, const Fitted& fitted, const numerics::LeastSquaresFit& fit,
             const MatrixXd& inverse, FitAnswer& answer) {
  for (std::size_t k = 0; k < answer.properties.size(); ++k) {
    const FittedProperty& property = answer.properties[k];
    if (property.is_at_bound) continue;
    for (const double end : {*property.low, *property.high}) {
      const double held = std::clamp(end, question.properties[k].low, question.properties[k].high);
      const double distance = held - property.value;
      if (distance == 0.0) continue;
      numerics::LeastSquaresProblem pinned = fitted.problem;
      pinned.start = fit.parameters;
      pinned.start[k] = pinned.low[k] = pinned.high[k] = held;
      const numerics::LeastSquaresFit other = numerics::fit_least_squares(pinned);
      answer.n_model_runs += other.calls;
      const double foreseen = distance * distance / inverse(static_cast<Index>(k), static_cast<Index>(k));
      const double rise = other.sum_of_squares - fit.sum_of_squares;
      if (rise <= bend * foreseen && rise >= foreseen / bend) continue;
      warn(answer, FitWarningKind::bends, {property.name},
           fmt::format("{}: at {:.3g} the misfit rises {:.1f} times as foreseen; that end of the interval is rough.",
                       property.name, held, rise / foreseen));
    }
  }
}

void expect_whole(const FitQuestion& question) {
  expects(static_cast<bool>(question.model) && !question.properties.empty(), "a model and a property");
  expects(question.day.size() == question.observed.size(), "a day for each reading");
  expects(question.confidence_frac > 0.0 && question.confidence_frac < 1.0, "a confidence between 0 and 1");
  for (const FitProperty& property : question.properties) {
    expects(property.low < property.high && property.low <= property.start && property.start <= property.high,
            "bounds around the start");
  }
}

}  // namespace

std::vector<int> last_quarter(const std::vector<int>& day) {
  const std::set<int> days(day.begin(), day.end());
  if (days.size() < 2) return {};
  const std::size_t n_held = std::max<std::size_t>(1, days.size() / 4);
  const std::vector<int> sorted(days.begin(), days.end());
  return {sorted.end() - static_cast<std::ptrdiff_t>(n_held), sorted.end()};
}

FitAnswer fit_properties(const FitQuestion& question) {
  expect_whole(question);
  const Fitted fitted = make_problem(question);
  const numerics::LeastSquaresFit fit = numerics::fit_least_squares(fitted.problem);
  FitAnswer answer;
  answer.n_model_runs = fit.calls;
  answer.rms_start = root_mean_square(sum_of_squares(question, fitted.problem.start, false), fitted.kept.size());
  answer.rms_fitted = root_mean_square(fit.sum_of_squares, fitted.kept.size());
  const std::size_t n_held = question.observed.size() - fitted.kept.size();
  if (n_held > 0) {
    answer.rms_held_back_start = root_mean_square(sum_of_squares(question, fitted.problem.start, true), n_held);
    answer.rms_held_back_fitted = root_mean_square(sum_of_squares(question, fit.parameters, true), n_held);
  }
  answer.n_model_runs += n_held > 0 ? 3 : 1;
  std::set<int> days;
  for (const std::size_t i : fitted.kept) days.insert(question.day[i]);
  answer.n_days = days.size();
  for (std::size_t k = 0; k < question.properties.size(); ++k) {
    FittedProperty property;
    property.name = question.properties[k].name;
    property.value = fit.parameters[k];
    property.is_at_bound = fit.is_at_bound[k];
    if (property.is_at_bound) {
      warn(answer, FitWarningKind::at_bound, {property.name},
           fmt::format("{} ended at its bound {:.3g}: either the bound or the model is wrong.", property.name,
                       property.value));
    }
    answer.properties.push_back(property);
  }
  if (!fit.is_converged) {
    warn(answer, FitWarningKind::not_converged, {}, "The fit ran out of steps: its values are not the best there are.");
  }
  const MatrixXd slopes = Eigen::Map<const Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>>(
      fit.slopes.data(), static_cast<Index>(fitted.kept.size()), static_cast<Index>(question.properties.size()));
  if (look_at_slopes(question, slopes, answer)) {
    const MatrixXd r = slopes.householderQr().matrixQR().topRows(slopes.cols()).triangularView<Eigen::Upper>();
    const MatrixXd r_inverse = r.triangularView<Eigen::Upper>().solve(MatrixXd::Identity(r.rows(), r.cols()));
    const MatrixXd inverse = r_inverse * r_inverse.transpose();
    look_at_correlations(question, inverse, answer);
    if (answer.n_days < std::max(least_days, question.properties.size() + 1)) {
      warn(answer, FitWarningKind::too_few_days, {},
           fmt::format("{} days are too few for intervals; {} are needed.", answer.n_days, least_days));
    } else if (fit.sum_of_squares > 0.0) {
      add_intervals(question, fitted, fit, slopes, inverse, answer);
      if (question.is_profiled) profile(question, fitted, fit, inverse, answer);
    }
  }
  answer.may_be_offered =
      std::all_of(answer.properties.begin(), answer.properties.end(),
                  [](const FittedProperty& p) { return !p.is_at_bound && p.standard_error.has_value(); }) &&
      std::all_of(answer.warnings.begin(), answer.warnings.end(),
                  [](const FitWarning& w) { return w.kind == FitWarningKind::bends; }) &&
      (!answer.rms_held_back_fitted || *answer.rms_held_back_fitted <= *answer.rms_held_back_start);
  return answer;
}

}  // namespace houseleek::trials
