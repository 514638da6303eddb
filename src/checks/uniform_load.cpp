// Soaked modules against the uniform load that an engineer wrote down: the first of two tests; no figure, no verdict.
#include "checks/uniform_load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/weights.hpp"

namespace houseleek::checks {
namespace {

using geometry::RectangleM;
using results::Interval;

struct LoadedRectangle {
  RectangleM rectangle;
  double load_kn_per_m2 = 0.0;
};

double shared_length_m(double low_a, double high_a, double low_b, double high_b) {
  return std::max(0.0, std::min(high_a, high_b) - std::max(low_a, low_b));
}

/// Load left of x on a line of stretches with loads: piecewise linear, so known by its corners.
class RunningSum {
 public:
  void clear() { changes_.clear(); }
  void add(double low_m, double high_m, double load_kn_per_m) {
    changes_.push_back({low_m, load_kn_per_m});
    changes_.push_back({high_m, -load_kn_per_m});
  }
  /// Greatest load between y and y + side over all y.
  [[nodiscard]] double greatest(double side_m) {
    std::sort(changes_.begin(), changes_.end(), [](const Change& a, const Change& b) { return a.at_m < b.at_m; });
    at_m_.clear();
    sum_.clear();
    double slope = 0.0;
    double sum = 0.0;
    for (std::size_t i = 0; i < changes_.size(); ++i) {
      if (i > 0) sum += slope * (changes_[i].at_m - changes_[i - 1].at_m);
      slope += changes_[i].load;
      at_m_.push_back(changes_[i].at_m);
      sum_.push_back(sum);
    }
    double best = 0.0;
    for (const double y_m : at_m_) {
      best = std::max(best, value_at(y_m + side_m) - value_at(y_m));
      best = std::max(best, value_at(y_m) - value_at(y_m - side_m));
    }
    return best;
  }

 private:
  struct Change {
    double at_m;
    double load;
  };
  [[nodiscard]] double value_at(double y_m) const {
    if (at_m_.empty() || y_m <= at_m_.front()) return 0.0;
    if (y_m >= at_m_.back()) return sum_.back();
    const std::size_t above =
        static_cast<std::size_t>(std::upper_bound(at_m_.begin(), at_m_.end(), y_m) - at_m_.begin());
    const double length_m = at_m_[above] - at_m_[above - 1];
    const double share = length_m > 0.0 ? (y_m - at_m_[above - 1]) / length_m : 0.0;
    return sum_[above - 1] + share * (sum_[above] - sum_[above - 1]);
  }
  std::vector<Change> changes_;
  std::vector<double> at_m_;
  std::vector<double> sum_;
};

/// Greatest mean load over a square of this side anywhere on the plan.
double greatest_mean_kn_per_m2(const std::vector<LoadedRectangle>& modules, double side_m) {
  std::vector<double> lefts_m;
  for (const LoadedRectangle& one : modules) {
    lefts_m.push_back(one.rectangle.left_m);
    lefts_m.push_back(one.rectangle.right_m - side_m);
  }
  std::sort(lefts_m.begin(), lefts_m.end());
  lefts_m.erase(std::unique(lefts_m.begin(), lefts_m.end()), lefts_m.end());
  double best_kn = 0.0;
  RunningSum line;
  for (const double left_m : lefts_m) {
    line.clear();
    for (const LoadedRectangle& one : modules) {
      const RectangleM& r = one.rectangle;
      const double width_m = shared_length_m(r.left_m, r.right_m, left_m, left_m + side_m);
      if (width_m > 0.0) line.add(r.bottom_m, r.top_m, width_m * one.load_kn_per_m2);
    }
    best_kn = std::max(best_kn, line.greatest(side_m));
  }
  return best_kn / (side_m * side_m);
}

double lesser_side_m(const geometry::Outline& outline) {
  double left = outline.front().x_m, right = left, bottom = outline.front().y_m, top = bottom;
  for (const geometry::PointM& corner : outline) {
    left = std::min(left, corner.x_m);
    right = std::max(right, corner.x_m);
    bottom = std::min(bottom, corner.y_m);
    top = std::max(top, corner.y_m);
  }
  return std::min(right - left, top - bottom);
}

bool is_blank(const std::string& text) { return text.find_first_not_of(" \t\r\n") == std::string::npos; }

std::vector<std::string> missing_parts(const design::Roof& roof) {
  if (!roof.allowable_load) return {"the figure itself", "who wrote it down", "when", "what it already includes"};
  const design::AllowableLoad& load = *roof.allowable_load;
  std::vector<std::string> missing;
  if (!load.load_kn_per_m2) missing.emplace_back("the figure itself");
  if (is_blank(load.who)) missing.emplace_back("who wrote it down");
  if (is_blank(load.when)) missing.emplace_back("when");
  if (is_blank(load.includes)) missing.emplace_back("what it already includes");
  return missing;
}

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
    text += parts[i];
  }
  return text;
}

Interval loads_with(const design::ValidDesign& design, double side_m) {
  const auto mean_of = [&](double Interval::*end) {
    std::vector<LoadedRectangle> modules;
    std::vector<double> load_by_patch;
    for (const design::Patch& patch : design->patches) {
      const ModuleWeights weights = compute_weights(design, patch.recipe, patch.placed);
      load_by_patch.push_back(0.001 * standard_gravity_m_per_s2 * weights.soaked_kg_per_m2.*end);
    }
    for (const design::ModulePlace& place : design->modules) {
      modules.push_back({place.rectangle, load_by_patch[static_cast<std::size_t>(place.patch)]});
    }
    return greatest_mean_kn_per_m2(modules, side_m);
  };
  return {mean_of(&Interval::low), mean_of(&Interval::likely), mean_of(&Interval::high)};
}

std::string statement_of(const UniformLoad& load, const design::ValidDesign& design) {
  const Interval& soaked = load.heaviest_kn_per_m2;
  if (design->modules.empty()) return "No modules are laid yet, so nothing is added to the roof.";
  std::string text =
      fmt::format("Soaked, {} {:.2f} kN/m2 ({:.2f} to {:.2f})",
                  load.averaging_area_m2 > 0.0 ? fmt::format("the heaviest {:.3g} m2 bring", load.averaging_area_m2)
                                               : "the heaviest square brings",
                  soaked.likely, soaked.low, soaked.high);
  if (load.verdict == LoadVerdict::none) {
    return text + fmt::format("; no verdict, because nobody wrote down {}.", joined(load.missing));
  }
  const design::AllowableLoad& allowed = *design->roof.allowable_load;
  const std::string figure =
      fmt::format("the {:.3g} kN/m2 that {} wrote down on {}", *allowed.load_kn_per_m2, allowed.who, allowed.when);
  switch (load.verdict) {
    case LoadVerdict::within:
      text += ": within " + figure;
      break;
    case LoadVerdict::not_shown:
      text += ": not shown to stay within " + figure;
      break;
    default:
      text += ": above " + figure;
      break;
  }
  return text + fmt::format(" ({}).", allowed.includes);
}

}  // namespace

UniformLoad check_uniform_load(const design::ValidDesign& design) {
  UniformLoad load;
  for (std::size_t i = 0; i < design->patches.size(); ++i) {
    const design::Patch& patch = design->patches[i];
    const Interval soaked = compute_weights(design, patch.recipe, patch.placed).soaked_kg_per_m2;
    const Interval pressed = (0.001 * standard_gravity_m_per_s2) * soaked;
    load.patches.push_back({static_cast<int>(i), pressed});
    if (pressed.low > load.heaviest_kn_per_m2.low) load.heaviest_kn_per_m2.low = pressed.low;
    if (pressed.likely > load.heaviest_kn_per_m2.likely) load.heaviest_kn_per_m2.likely = pressed.likely;
    if (pressed.high > load.heaviest_kn_per_m2.high) load.heaviest_kn_per_m2.high = pressed.high;
  }
  const std::optional<design::AllowableLoad>& allowed = design->roof.allowable_load;
  if (allowed && allowed->averaging_area_m2 && !design->modules.empty()) {
    const double side_m = std::min(std::sqrt(*allowed->averaging_area_m2), lesser_side_m(design->roof.outline));
    load.averaging_area_m2 = side_m * side_m;
    load.heaviest_kn_per_m2 = loads_with(design, side_m);
  }
  load.missing = missing_parts(design->roof);
  if (load.missing.empty()) {
    const double allowable = *allowed->load_kn_per_m2;
    load.utilisation_frac = (1.0 / allowable) * load.heaviest_kn_per_m2;
    load.verdict = load.heaviest_kn_per_m2.high <= allowable     ? LoadVerdict::within
                   : load.heaviest_kn_per_m2.likely <= allowable ? LoadVerdict::not_shown
                                                                 : LoadVerdict::above;
  }
  load.statement = statement_of(load, design);
  return load;
}

}  // namespace houseleek::checks
