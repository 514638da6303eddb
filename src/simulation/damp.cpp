// Damp by the hour: slices, fluxes between them, Newton's method on two unknowns a slice.
#include "simulation/damp.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/context.hpp"
#include "base/contract.hpp"
#include "numerics/elementary.hpp"
#include "physics/air.hpp"
#include "physics/constants.hpp"
#include "physics/porous.hpp"
#include "simulation/damp_faces.hpp"
#include "simulation/run.hpp"
#include "simulation/scheme.hpp"

namespace houseleek::simulation {
namespace {

using physics::DampPoint;

// A residual is left at rounding's own size: sums over slices stay below 1e-9 kg/m2.
constexpr double water_tolerance_kg_per_m2 = 4e-11;
constexpr double heat_tolerance_j_per_m2 = 1e-3;
constexpr double heat_tolerance_frac = 1e-12;
constexpr int most_iterations = 15;
// A Newton step further than this is cut: the curves bend.
constexpr double least_water_ratio = 0.25;
constexpr double most_water_ratio = 4.0;
constexpr double most_change_k = 15.0;
constexpr double least_water_kg_per_m3 = 1e-6;

struct Matrix2 {
  double ww = 0.0;
  double wk = 0.0;
  double kw = 0.0;
  double kk = 0.0;
};

struct Vector2 {
  double w = 0.0;
  double k = 0.0;
};

Matrix2 inverse(const Matrix2& m) {
  const double factor = 1.0 / (m.ww * m.kk - m.wk * m.kw);
  return {m.kk * factor, -m.wk * factor, -m.kw * factor, m.ww * factor};
}

Matrix2 operator*(const Matrix2& a, const Matrix2& b) {
  return {a.ww * b.ww + a.wk * b.kw, a.ww * b.wk + a.wk * b.kk, a.kw * b.ww + a.kk * b.kw, a.kw * b.wk + a.kk * b.kk};
}

Vector2 operator*(const Matrix2& a, const Vector2& b) { return {a.ww * b.w + a.wk * b.k, a.kw * b.w + a.kk * b.k}; }

physics::SaturationPressure<double> saturation_at(double temperature_c) {
  return temperature_c >= 0.0 ? physics::saturation_pressure_unchecked(temperature_c)
                              : physics::saturation_pressure_over_ice_unchecked(temperature_c);
}

double straight(const std::vector<double>& marks, int hour, double fraction) {
  const std::size_t i = static_cast<std::size_t>(hour);
  return fraction >= 1.0 ? marks[i + 1] : marks[i] + fraction * (marks[i + 1] - marks[i]);
}

FaceLaw face_between(const DampDeck& deck, int above, int below) {
  if (above == below) return {.liquid = Liquid::one_material};
  const DampSheet& sheet = deck.sheets[static_cast<std::size_t>(below)];
  const bool is_one =
      deck.layers[static_cast<std::size_t>(above)].law == deck.layers[static_cast<std::size_t>(below)].law;
  return {sheet.heat_resistance_m2_k_per_w, sheet.vapour_resistance_m2_s_pa_per_kg,
          !sheet.lets_liquid_through ? Liquid::none
          : is_one                   ? Liquid::one_material
                                     : Liquid::two_materials};
}

FaceLaw outer_face(const DampSheet& sheet, const DampSide& side) {
  return {sheet.heat_resistance_m2_k_per_w + side.heat_film_resistance_m2_k_per_w,
          sheet.vapour_resistance_m2_s_pa_per_kg + side.vapour_film_resistance_m2_s_pa_per_kg,
          side.is_wet_contact ? Liquid::two_materials : Liquid::none};
}

class DampStepper {
 public:
  DampStepper(const DampDeck& deck, const DampClimate& climate, const DampOptions& options)
      : climate_(climate), options_(options), mesh_(make_damp_mesh(deck, options.refinement)) {
    const std::size_t n = mesh_.layer.size();
    faces_.resize(n + 1);
    for (std::size_t i = 0; i < n; ++i) {
      const DampLayer& layer = deck.layers[static_cast<std::size_t>(mesh_.layer[i])];
      laws_.push_back(layer.law);
      water_.push_back(layer.law->water_kg_per_m3(layer.start_humidity, layer.start_c));
      temperature_c_.push_back(layer.start_c);
      if (i > 0) faces_[i] = face_between(deck, mesh_.layer[i - 1], mesh_.layer[i]);
    }
    faces_[0] = outer_face(deck.sheets.front(), climate.top);
    faces_[n] = outer_face(deck.sheets.back(), climate.bottom);
    points_.resize(n);
    sides_.resize(n);
    pairs_.resize(n + 1);
    first_water_rate_.resize(n);
    first_heat_rate_.resize(n);
    held_water_.resize(n);
    held_heat_.resize(n);
    last_water_.resize(n);
    last_temperature_k_.resize(n);
    stage_water_.resize(n);
    stage_temperature_c_.resize(n);
    upper_.resize(n);
    right_.resize(n);
    for (std::size_t i = 0; i < n; ++i) {
      held_water_[i] = water_[i] * mesh_.thickness_m[i];
      held_heat_[i] = laws_[i]->at(water_[i], temperature_c_[i]).heat_j_per_m3 * mesh_.thickness_m[i];
    }
  }

  DampRun run(const std::function<void(const DampMoment&)>& observer, const Context& context) {
    DampRun result;
    result.water_start_kg_per_m2 = stored_water();
    const double heat_start = stored_heat();
    std::vector<double> humidity(water_.size());
    for (int hour = 0; hour < options_.n_hours; ++hour) {
      if (hour % 720 == 0) {
        check_cancelled(context);
        if (context.on_progress) context.on_progress(static_cast<double>(hour) / options_.n_hours);
      }
      for (int step = 0; step < options_.steps_per_hour; ++step) {
        const double length = 1.0 / options_.steps_per_hour;
        advance(hour, step * length, length, 1, result);
      }
      if (observer) {
        // The last stage of a step ends at its end: its points are those of the new state.
        for (std::size_t i = 0; i < water_.size(); ++i) humidity[i] = points_[i].humidity;
        observer({hour + 1, water_, temperature_c_, humidity});
      }
    }
    result.water_end_kg_per_m2 = stored_water();
    result.water_residual_kg_per_m2 = result.water_end_kg_per_m2 - result.water_start_kg_per_m2 -
                                      result.came_in_above_kg_per_m2 - result.came_in_below_kg_per_m2;
    result.heat_residual_frac =
        heat_through_ > 0.0 ? std::abs(stored_heat() - heat_start - heat_in_) / heat_through_ : 0.0;
    return result;
  }

 private:
  [[nodiscard]] double stored_water() const {
    double sum = 0.0;
    for (std::size_t i = 0; i < water_.size(); ++i) sum += water_[i] * mesh_.thickness_m[i];
    return sum;
  }
  [[nodiscard]] double stored_heat() const {
    double sum = 0.0;
    for (std::size_t i = 0; i < water_.size(); ++i) {
      sum += laws_[i]->at(water_[i], temperature_c_[i]).heat_j_per_m3 * mesh_.thickness_m[i];
    }
    return sum;
  }

  /// The air, or the wet face, on one side at a moment.
  [[nodiscard]] FaceSide side_at(const DampSide& side, const physics::DampLaw& law, int hour, double fraction) const {
    FaceSide face;
    face.temperature_c = straight(side.temperature_c, hour, fraction);
    face.vapour_pa = straight(side.vapour_pressure_pa, hour, fraction);
    if (side.is_wet_contact) {
      const double humidity = numerics::min(1.0, face.vapour_pa / saturation_at(face.temperature_c).pressure_pa);
      face.water_kg_per_m3 = law.water_kg_per_m3(humidity, face.temperature_c);
      face.point = law.at(face.water_kg_per_m3, face.temperature_c);
    }
    return face;
  }

  /// One step of a share of an hour; cut in two where it does not converge.
  void advance(int hour, double start, double length, int split, DampRun& result) {
    if (try_step(hour, start, length, true, result) || try_step(hour, start, length, false, result)) return;
    if (2 * split > options_.largest_split) {
      throw NumericalFailure(fmt::format(
          "damp: no convergence in hour {} at the smallest step (1/{} of an hour); largest residual {:.3g} kg/m2", hour,
          split, last_residual_));
    }
    result.largest_split = std::max(result.largest_split, 2 * split);
    advance(hour, start, 0.5 * length, 2 * split, result);
    advance(hour, start + 0.5 * length, 0.5 * length, 2 * split, result);
  }

  /// With `is_guessing` Newton's method begins where the last changes would lead, else at the last state.
  bool try_step(int hour, double start, double length, bool is_guessing, DampRun& result) {
    const double step_s = 3600.0 * length;
    std::copy(water_.begin(), water_.end(), stage_water_.begin());
    std::copy(temperature_c_.begin(), temperature_c_.end(), stage_temperature_c_.begin());
    if (is_guessing && length == last_length_) {
      for (std::size_t i = 0; i < water_.size(); ++i) {
        guess(i, scheme::gamma * last_water_[i], scheme::gamma * last_temperature_k_[i]);
      }
    }
    std::fill(first_water_rate_.begin(), first_water_rate_.end(), 0.0);
    std::fill(first_heat_rate_.begin(), first_heat_rate_.end(), 0.0);
    if (!solve_stage(hour, start + scheme::gamma * length, 0.0, step_s, result)) return false;
    const FacePair first_top = pairs_.front();
    const FacePair first_bottom = pairs_.back();
    for (std::size_t i = 0; i < water_.size(); ++i) {
      first_water_rate_[i] = pairs_[i].water.value - pairs_[i + 1].water.value;
      first_heat_rate_[i] = pairs_[i].heat.value - pairs_[i + 1].heat.value;
    }
    if (is_guessing) {
      constexpr double onward = (1.0 - scheme::gamma) / scheme::gamma;
      for (std::size_t i = 0; i < water_.size(); ++i) {
        guess(i, onward * (stage_water_[i] - water_[i]), onward * (stage_temperature_c_[i] - temperature_c_[i]));
      }
    }
    if (!solve_stage(hour, start + length, scheme::first_weight, step_s, result)) return false;
    for (std::size_t i = 0; i < water_.size(); ++i) {
      held_water_[i] += step_s * (scheme::first_weight * first_water_rate_[i] +
                                  scheme::second_weight * (pairs_[i].water.value - pairs_[i + 1].water.value));
      held_heat_[i] += step_s * (scheme::first_weight * first_heat_rate_[i] +
                                 scheme::second_weight * (pairs_[i].heat.value - pairs_[i + 1].heat.value));
    }
    for (std::size_t i = 0; i < water_.size(); ++i) {
      last_water_[i] = stage_water_[i] - water_[i];
      last_temperature_k_[i] = stage_temperature_c_[i] - temperature_c_[i];
    }
    last_length_ = length;
    water_.swap(stage_water_);
    temperature_c_.swap(stage_temperature_c_);
    const auto mean = [&](double first, double second) {
      return step_s * (scheme::first_weight * first + scheme::second_weight * second);
    };
    result.came_in_above_kg_per_m2 += mean(first_top.water.value, pairs_.front().water.value);
    result.came_in_below_kg_per_m2 -= mean(first_bottom.water.value, pairs_.back().water.value);
    heat_in_ +=
        mean(first_top.heat.value, pairs_.front().heat.value) - mean(first_bottom.heat.value, pairs_.back().heat.value);
    heat_through_ += mean(std::abs(first_top.heat.value), std::abs(pairs_.front().heat.value)) +
                     mean(std::abs(first_bottom.heat.value), std::abs(pairs_.back().heat.value));
    ++result.n_steps;
    return true;
  }

  /// A first guess some way off the stage's state, as far as it stays a likely one.
  void guess(std::size_t i, double water_change, double change_k) {
    constexpr double most_guess_k = 5.0;
    stage_water_[i] = std::max(0.5 * stage_water_[i], stage_water_[i] + water_change);
    if (std::abs(change_k) <= most_guess_k) stage_temperature_c_[i] += change_k;
  }

  /// Fluxes at the stage's state, kept in pairs_.
  void find_fluxes(const FaceSide& top, const FaceSide& bottom) {
    const std::size_t n = water_.size();
    for (std::size_t i = 0; i < n; ++i) {
      points_[i] = laws_[i]->at(stage_water_[i], stage_temperature_c_[i]);
      const physics::SaturationPressure<double> saturation = saturation_at(stage_temperature_c_[i]);
      FaceSide& side = sides_[i];
      side.point = points_[i];
      side.half_m = 0.5 * mesh_.thickness_m[i];
      side.water_kg_per_m3 = stage_water_[i];
      side.temperature_c = stage_temperature_c_[i];
      side.vapour_pa = points_[i].humidity * saturation.pressure_pa;
      side.vapour_by_w = points_[i].humidity_by_w * saturation.pressure_pa;
      side.vapour_by_k =
          points_[i].humidity * saturation.slope_pa_per_k + points_[i].humidity_by_k * saturation.pressure_pa;
    }
    pairs_[0] = fluxes_through_outer(faces_[0], top, sides_[0], true);
    for (std::size_t i = 1; i < n; ++i) pairs_[i] = fluxes_through(faces_[i], sides_[i - 1], sides_[i]);
    pairs_[n] = fluxes_through_outer(faces_[n], bottom, sides_[n - 1], false);
  }

  bool solve_stage(int hour, double fraction, double first_weight, double step_s, DampRun& result) {
    const std::size_t n = water_.size();
    const FaceSide top = side_at(climate_.top, *laws_.front(), hour, fraction);
    const FaceSide bottom = side_at(climate_.bottom, *laws_.back(), hour, fraction);
    const double own_s = scheme::gamma * step_s;
    for (int iteration = 0; iteration <= most_iterations; ++iteration) {
      find_fluxes(top, bottom);
      bool is_closed = true;
      last_residual_ = 0.0;
      for (std::size_t i = 0; i < n; ++i) {
        const double thickness = mesh_.thickness_m[i];
        const double water = stage_water_[i] * thickness - held_water_[i] -
                             first_weight * step_s * first_water_rate_[i] -
                             own_s * (pairs_[i].water.value - pairs_[i + 1].water.value);
        const double heat = points_[i].heat_j_per_m3 * thickness - held_heat_[i] -
                            first_weight * step_s * first_heat_rate_[i] -
                            own_s * (pairs_[i].heat.value - pairs_[i + 1].heat.value);
        right_[i] = {-water, -heat};
        last_residual_ = larger(std::abs(water), last_residual_);
        is_closed = is_closed && std::abs(water) <= water_tolerance_kg_per_m2 &&
                    std::abs(heat) <= heat_tolerance_j_per_m2 + heat_tolerance_frac * std::abs(held_heat_[i]);
      }
      if (is_closed) return true;
      if (iteration == most_iterations) return false;
      ++result.n_newton_iterations;
      eliminate(own_s);
      for (std::size_t i = 0; i < n; ++i) {
        const double water = stage_water_[i] + right_[i].w;
        const double change_k = std::clamp(right_[i].k, -most_change_k, most_change_k);
        if (!(std::isfinite(water) && std::isfinite(change_k))) return false;
        stage_water_[i] = std::max(least_water_kg_per_m3, std::clamp(water, least_water_ratio * stage_water_[i],
                                                                     most_water_ratio * stage_water_[i]));
        stage_temperature_c_[i] += change_k;
        if (!(stage_temperature_c_[i] >= lowest_surface_c && stage_temperature_c_[i] <= highest_surface_c))
          return false;
      }
    }
    return false;
  }

  /// Solves the block tridiagonal system of the slopes; right_ becomes the Newton step.
  void eliminate(double own_s) {
    const std::size_t n = water_.size();
    for (std::size_t i = 0; i < n; ++i) {
      const FacePair& above = pairs_[i];
      const FacePair& below = pairs_[i + 1];
      const double thickness = mesh_.thickness_m[i];
      Matrix2 diagonal{thickness - own_s * (above.water.by_wl - below.water.by_wu),
                       -own_s * (above.water.by_kl - below.water.by_ku),
                       points_[i].heat_by_w * thickness - own_s * (above.heat.by_wl - below.heat.by_wu),
                       points_[i].heat_by_k * thickness - own_s * (above.heat.by_kl - below.heat.by_ku)};
      const Matrix2 upper{own_s * below.water.by_wl, own_s * below.water.by_kl, own_s * below.heat.by_wl,
                          own_s * below.heat.by_kl};
      if (i > 0) {
        const Matrix2 lower{-own_s * above.water.by_wu, -own_s * above.water.by_ku, -own_s * above.heat.by_wu,
                            -own_s * above.heat.by_ku};
        const Matrix2 taken = lower * upper_[i - 1];
        diagonal = {diagonal.ww - taken.ww, diagonal.wk - taken.wk, diagonal.kw - taken.kw, diagonal.kk - taken.kk};
        const Vector2 moved = lower * right_[i - 1];
        right_[i] = {right_[i].w - moved.w, right_[i].k - moved.k};
      }
      const Matrix2 inverted = inverse(diagonal);
      upper_[i] = inverted * upper;
      right_[i] = inverted * right_[i];
    }
    for (std::size_t i = n - 1; i-- > 0;) {
      const Vector2 moved = upper_[i] * right_[i + 1];
      right_[i] = {right_[i].w - moved.w, right_[i].k - moved.k};
    }
  }

  const DampClimate& climate_;
  const DampOptions& options_;
  DampMesh mesh_;
  std::vector<const physics::DampLaw*> laws_;
  std::vector<FaceLaw> faces_;
  std::vector<double> water_;
  std::vector<double> temperature_c_;
  // Water and heat of each slice as the fluxes left them: what Newton's method leaves open does not add up.
  std::vector<double> held_water_;
  std::vector<double> held_heat_;
  std::vector<double> first_water_rate_;
  std::vector<double> first_heat_rate_;
  std::vector<double> last_water_;  // by which the last step changed the state
  std::vector<double> last_temperature_k_;
  double last_length_ = 0.0;
  std::vector<double> stage_water_;
  std::vector<double> stage_temperature_c_;
  std::vector<DampPoint> points_;
  std::vector<FaceSide> sides_;
  std::vector<FacePair> pairs_;
  std::vector<Matrix2> upper_;
  std::vector<Vector2> right_;
  double heat_in_ = 0.0;
  double heat_through_ = 0.0;
  double last_residual_ = 0.0;
};

}  // namespace

DampMesh make_damp_mesh(const DampDeck& deck, int refinement) {
  expects(refinement >= 1, "a refinement of 1 or more");
  DampMesh mesh;
  for (std::size_t k = 0; k < deck.layers.size(); ++k) {
    const DampLayer& layer = deck.layers[k];
    expects(layer.thickness_m > 0.0 && layer.n_slices >= 1, "a layer with a thickness and a slice");
    const int n = layer.n_slices * refinement;
    // Half evenly, half by a cosine: slices at the faces are half as thick as those in the middle.
    const auto place = [&](int i) {
      const double share = static_cast<double>(i) / n;
      return layer.thickness_m * (0.5 * share + 0.25 * (1.0 - numerics::cos(physics::pi * share)));
    };
    for (int i = 0; i < n; ++i) {
      mesh.thickness_m.push_back(place(i + 1) - place(i));
      mesh.layer.push_back(static_cast<int>(k));
    }
  }
  return mesh;
}

DampRun run_damp(const DampDeck& deck, const DampClimate& climate, const DampOptions& options,
                 const std::function<void(const DampMoment&)>& observer, const Context& context) {
  expects(!deck.layers.empty() && deck.sheets.size() == deck.layers.size() + 1,
          "layers, and one sheet more than layers");
  expects(options.n_hours >= 1 && options.steps_per_hour >= 1, "at least one hour and one step an hour");
  const std::size_t n_marks = static_cast<std::size_t>(options.n_hours) + 1;
  for (const DampSide* side : {&climate.top, &climate.bottom}) {
    expects(side->temperature_c.size() >= n_marks && side->vapour_pressure_pa.size() >= n_marks, "marks for all hours");
  }
  for (const DampLayer& layer : deck.layers) {
    expects(layer.law != nullptr && layer.start_humidity > 0.0 && layer.start_humidity <= 1.0,
            "a law for every layer and a first humidity within 0 to 1");
  }
  return DampStepper(deck, climate, options).run(observer, context);
}

}  // namespace houseleek::simulation
