// Bending both ways, shear and what the supports carry, section by section: the second of two tests of the load.
#include "checks/span_load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "checks/beam_lines.hpp"
#include "physics/slab_panel.hpp"
#include "physics/timber.hpp"

namespace houseleek::checks {
namespace {

using results::Interval;

/// Ends of the weight in use: the seldom passed ones, or the likely ones.
struct WeightEnds {
  double Interval::*lightest;
  double Interval::*heaviest;
};
constexpr WeightEnds widest = {&Interval::low, &Interval::high};
constexpr WeightEnds likely = {&Interval::likely, &Interval::likely};

physics::TimberDuration timber_duration(design::LoadDuration duration) {
  switch (duration) {
    case design::LoadDuration::permanent:
      return physics::TimberDuration::permanent;
    case design::LoadDuration::long_term:
      return physics::TimberDuration::long_term;
    case design::LoadDuration::medium_term:
      return physics::TimberDuration::medium_term;
    case design::LoadDuration::short_term:
      break;
  }
  return physics::TimberDuration::short_term;
}

/// A figure made for a short load is worth less for one that stays; nobody said for how long: the shortest.
double duration_factor(const design::Roof& roof) {
  if (!roof.structure->joists) return 1.0;
  const int service_class = roof.structure->joists->service_class;
  const design::LoadDuration given = roof.allowable_load
                                         ? roof.allowable_load->duration.value_or(design::LoadDuration::short_term)
                                         : design::LoadDuration::short_term;
  return physics::timber_strength_frac(timber_duration(given), service_class) /
         physics::timber_strength_frac(physics::TimberDuration::permanent, service_class);
}

/// `everywhere_kn_per_m2`: snow, hail or ponded rain, which come for a short time and need no factor.
std::vector<ChangingLoad> loads_of(const BeamLine& line, std::span<const Footprint> footprints, WeightEnds ends,
                                   double factor, const Interval& everywhere_kn_per_m2) {
  std::vector<ChangingLoad> loads;
  for (std::size_t i = 0; i < line.footprints.size(); ++i) {
    const Footprint& one = footprints[static_cast<std::size_t>(line.footprints[i])];
    loads.push_back({line.of_one_kn[i], line.shares[i] * one.dry_kn.*ends.lightest,
                     factor * line.shares[i] * one.soaked_kn.*ends.heaviest});
  }
  const double even_kn_per_m = everywhere_kn_per_m2.*ends.heaviest * line.load_width_m;
  for (std::size_t k = 0; even_kn_per_m > 0.0 && k + 1 < line.beam.supports_m.size(); ++k) {
    const double from_m = line.beam.supports_m[k];
    const double to_m = line.beam.supports_m[k + 1];
    loads.push_back({physics::solve_beam(line.beam, {from_m, to_m, 1.0}), 0.0, even_kn_per_m * (to_m - from_m)});
  }
  return loads;
}

bool is_any_beyond(const std::array<Section, 6>& sections) {
  return std::any_of(sections.begin(), sections.end(), is_beyond);
}

/// Bending of one panel under its footprints over that under the figure, at the worst of these points.
constexpr int panel_points = 9;  // each way, evenly inside

struct PanelResult {
  PanelSection worst;
  bool is_beyond = false;
};

PanelResult compare_panel(const geometry::RectangleM& panel, std::span<const Footprint> footprints, WeightEnds ends,
                          double everywhere_kn_per_m2, double load_kn_per_m2) {
  const double length_x_m = panel.right_m - panel.left_m;
  const double length_y_m = panel.top_m - panel.bottom_m;
  std::vector<physics::SlabPatch> patches;
  for (const Footprint& one : footprints) {
    const double from_x_m = std::max(one.rectangle.left_m, panel.left_m);
    const double to_x_m = std::min(one.rectangle.right_m, panel.right_m);
    const double from_y_m = std::max(one.rectangle.bottom_m, panel.bottom_m);
    const double to_y_m = std::min(one.rectangle.top_m, panel.top_m);
    if (to_x_m <= from_x_m || to_y_m <= from_y_m) continue;
    patches.push_back({from_x_m - panel.left_m, to_x_m - panel.left_m, from_y_m - panel.bottom_m,
                       to_y_m - panel.bottom_m, one.soaked_kn.*ends.heaviest / area_m2(one)});
  }
  if (everywhere_kn_per_m2 > 0.0) patches.push_back({0.0, length_x_m, 0.0, length_y_m, everywhere_kn_per_m2});
  std::vector<double> xs_m, ys_m;
  for (int i = 1; i <= panel_points; ++i) {
    xs_m.push_back(length_x_m * i / (panel_points + 1));
    ys_m.push_back(length_y_m * i / (panel_points + 1));
  }
  const physics::SlabPatch whole = {0.0, length_x_m, 0.0, length_y_m, load_kn_per_m2};
  PanelResult result;
  double worst_excess = 0.0;
  bool is_first = true;
  for (const bool is_plate : {true, false}) {
    // Concrete has a Poisson's ratio of 0.2 before it cracks and about none after.
    const physics::SlabPanel kind = {length_x_m, length_y_m, is_plate ? 0.2 : 0.0, is_plate ? 1.0 : 0.0};
    const auto demand = physics::slab_moments(kind, patches, xs_m, ys_m);
    const auto allowed = physics::slab_moments(kind, std::span(&whole, 1), xs_m, ys_m);
    for (std::size_t i = 0; i < demand.size(); ++i) {
      const double x_m = panel.left_m + xs_m[i % xs_m.size()];
      const double y_m = panel.bottom_m + ys_m[i / xs_m.size()];
      for (const bool is_along_x : {true, false}) {
        const double d = is_along_x ? demand[i].x_knm_per_m : demand[i].y_knm_per_m;
        const double a = is_along_x ? allowed[i].x_knm_per_m : allowed[i].y_knm_per_m;
        if (d - a > section_rounding * std::fabs(a)) result.is_beyond = true;
        if (!is_first && d - a <= worst_excess) continue;
        is_first = false;
        worst_excess = d - a;
        result.worst = {x_m, y_m, is_along_x, is_plate, d, a};
      }
    }
  }
  return result;
}

struct Compared {
  std::vector<LineSections> worst;
  std::vector<PanelSection> panels;
  bool is_beyond = false;
};

Compared compare_all(const SpanLoad& load, const design::Roof& roof, std::span<const Footprint> footprints,
                     WeightEnds ends, const Interval& everywhere_kn_per_m2, double load_kn_per_m2) {
  Compared compared;
  for (std::size_t i = 0; i < load.lines.size(); ++i) {
    const std::vector<ChangingLoad> loads =
        loads_of(load.lines[i], footprints, ends, load.duration_factor, everywhere_kn_per_m2);
    const auto sections = compare_sections(load.lines[i].beam, loads, load.lines[i].allowance);
    compared.is_beyond = compared.is_beyond || is_any_beyond(sections);
    compared.worst.push_back({static_cast<int>(i), sections});
  }
  if (roof.structure->kind != design::DeckKind::two_way_slab) return compared;
  const std::vector<double>& xs_m = roof.structure->supports_at_m;
  const std::vector<double>& ys_m = roof.structure->cross_supports_at_m;
  for (std::size_t i = 0; i + 1 < xs_m.size(); ++i) {
    for (std::size_t j = 0; j + 1 < ys_m.size(); ++j) {
      const PanelResult panel = compare_panel({xs_m[i], ys_m[j], xs_m[i + 1], ys_m[j + 1]}, footprints, ends,
                                              everywhere_kn_per_m2.*ends.heaviest, load_kn_per_m2);
      compared.is_beyond = compared.is_beyond || panel.is_beyond;
      compared.panels.push_back(panel.worst);
    }
  }
  return compared;
}

const Section* worst_section(const SpanLoad& load) {
  const Section* worst = nullptr;
  for (const LineSections& line : load.worst) {
    for (const Section& section : line.sections) {
      if (section.scale <= 0.0) continue;
      if (worst == nullptr || section.excess / section.scale > worst->excess / worst->scale) worst = &section;
    }
  }
  return worst;
}

std::string statement_of(const SpanLoad& load, const design::Roof& roof) {
  if (load.model == SpanModel::none_given) {
    return "Bending and shear are not looked at: nobody said how the deck carries. The engineer knows.";
  }
  if (load.model == SpanModel::engineer_only) {
    return "This kind of deck gets no model here: bending and shear are for an engineer alone.";
  }
  if (!load.missing.empty()) {
    return fmt::format("Bending and shear have no verdict, because nobody wrote down {}.", joined_words(load.missing));
  }
  std::string text = fmt::format("Bending, shear and loads on supports, section by section{}{}",
                                 words_from(load.verdict), figure_words(roof));
  const Section* worst = worst_section(load);
  if (worst != nullptr && is_beyond(*worst)) {
    text +=
        fmt::format("; the section farthest beyond has {:.3g} of {:.3g} {} ({}, at {:.2f} m)", worst->demand,
                    worst->allowance, is_bending(worst->effect) ? "kNm" : "kN", words_from(worst->effect), worst->at_m);
  }
  text += ".";
  if (!load.not_modelled.empty()) {
    text += fmt::format(
        " {} of the modules and containers reach past the supports or lie by a hole in the deck: for them "
        "nothing is shown.",
        load.not_modelled.size());
  }
  const bool is_continuous = std::any_of(load.lines.begin(), load.lines.end(),
                                         [](const BeamLine& line) { return line.beam.supports_m.size() > 2; });
  if (is_continuous && !load.is_by_turns_known) {
    text += " The figure is taken to stand on all spans at once; ask the engineer whether it may stand on single ones.";
  }
  if (load.duration_factor > 1.0) {
    text += fmt::format(" Timber: weights that stay count {:.3g} times, against a figure made for a shorter load.",
                        load.duration_factor);
  }
  return text;
}

}  // namespace

SpanLoad check_span_load(const design::ValidDesign& design, std::span<const Footprint> footprints,
                         const Interval& everywhere_kn_per_m2) {
  const design::Roof& roof = design->roof;
  SpanLoad load;
  load.missing = missing_parts(roof);
  const bool has_model = roof.structure && !roof.structure->supports_at_m.empty();
  load.model = !roof.structure ? SpanModel::none_given : has_model ? SpanModel::computed : SpanModel::engineer_only;
  if (!has_model) {
    load.statement = statement_of(load, roof);
    return load;
  }
  load.is_by_turns_known = roof.allowable_load && roof.allowable_load->is_by_turns.has_value();
  load.duration_factor = duration_factor(roof);
  const double figure_kn_per_m2 = load.missing.empty() ? *roof.allowable_load->load_kn_per_m2 : 0.0;
  const bool is_two_way = roof.structure->kind == design::DeckKind::two_way_slab;
  const design::SpanAxis along = is_two_way ? design::SpanAxis::x : roof.structure->spans_along;
  BeamLines lines = make_beam_lines(roof, along, roof.structure->supports_at_m, footprints, figure_kn_per_m2);
  if (is_two_way) {
    const BeamLines cross =
        make_beam_lines(roof, design::SpanAxis::y, roof.structure->cross_supports_at_m, footprints, figure_kn_per_m2);
    lines.lines.insert(lines.lines.end(), cross.lines.begin(), cross.lines.end());
    lines.not_modelled.insert(lines.not_modelled.end(), cross.not_modelled.begin(), cross.not_modelled.end());
    std::sort(lines.not_modelled.begin(), lines.not_modelled.end());
    lines.not_modelled.erase(std::unique(lines.not_modelled.begin(), lines.not_modelled.end()),
                             lines.not_modelled.end());
  }
  load.lines = std::move(lines.lines);
  load.not_modelled = std::move(lines.not_modelled);
  Compared high = compare_all(load, roof, footprints, widest, everywhere_kn_per_m2, figure_kn_per_m2);
  load.worst = std::move(high.worst);
  load.panels = std::move(high.panels);
  if (load.missing.empty()) {
    if (high.is_beyond || !load.not_modelled.empty()) {
      const bool is_likely_beyond =
          compare_all(load, roof, footprints, likely, everywhere_kn_per_m2, figure_kn_per_m2).is_beyond;
      load.verdict = is_likely_beyond ? LoadVerdict::above : LoadVerdict::not_shown;
    } else {
      load.verdict = LoadVerdict::within;
    }
  }
  load.statement = statement_of(load, roof);
  return load;
}

SpanLoad check_span_load(const design::ValidDesign& design) { return check_span_load(design, find_footprints(design)); }

LoadVerdict both_tests(LoadVerdict uniform, LoadVerdict spans) {
  const LoadVerdict worse = static_cast<int>(uniform) > static_cast<int>(spans) ? uniform : spans;
  const bool is_one_missing = uniform == LoadVerdict::none || spans == LoadVerdict::none;
  return is_one_missing && worse == LoadVerdict::within ? LoadVerdict::none : worse;
}

}  // namespace houseleek::checks
