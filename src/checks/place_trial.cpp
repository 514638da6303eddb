// Both tests of the load with more modules of one recipe laid: within or not, and what broke.
#include "checks/place_trial.hpp"

#include <algorithm>
#include <cmath>

#include "base/contract.hpp"
#include "checks/heaviest_mean.hpp"
#include "checks/uniform_load.hpp"

namespace houseleek::checks {
namespace {

using geometry::RectangleM;

double on_square_kn(const Footprint& one, const RectangleM& square) {
  const double width_m =
      std::min(one.rectangle.right_m, square.right_m) - std::max(one.rectangle.left_m, square.left_m);
  const double height_m =
      std::min(one.rectangle.top_m, square.top_m) - std::max(one.rectangle.bottom_m, square.bottom_m);
  if (width_m <= 0.0 || height_m <= 0.0) return 0.0;
  return one.soaked_kn.high * width_m * height_m / area_m2(one);
}

/// Of a strip: per metre of width if the footprint lies on all of it. Joists never come here.
double share_of_line(const Footprint& one, const BeamLine& line) {
  const bool is_x = line.along == design::SpanAxis::x;
  const double low_m = is_x ? one.rectangle.bottom_m : one.rectangle.left_m;
  const double high_m = is_x ? one.rectangle.top_m : one.rectangle.right_m;
  const double middle_m = 0.5 * (line.across_from_m + line.across_to_m);
  return low_m < middle_m && high_m > middle_m ? 1.0 / (high_m - low_m) : 0.0;
}

}  // namespace

PlaceTrial::PlaceTrial(const design::ValidDesign& design, const Footprint& module)
    : design_(design), module_(module), laid_(find_footprints(design)) {
  averaging_m2_ = averaging_area_in_use_m2(design->roof);
  figure_kn_per_m2_ = *design->roof.allowable_load->load_kn_per_m2;
}

PlaceOutcome PlaceTrial::with(std::span<const RectangleM> places) const {
  std::vector<Footprint> all = laid_;
  for (const RectangleM& place : places) {
    all.push_back(module_);
    all.back().rectangle = place;
  }
  PlaceOutcome outcome;
  const double mean = judge_mean(all, outcome);
  const SpanLoad spans = check_span_load(design_, all);
  const double sections = judge_sections(spans, outcome);
  outcome.nearness_frac = std::max(mean, sections);
  outcome.is_within = !outcome.is_mean_broken && spans.verdict == LoadVerdict::within;
  return outcome;
}

bool PlaceTrial::has_joists() const { return design_->roof.structure->joists.has_value(); }

Condition PlaceTrial::condition_from(const PlaceOutcome& broken, std::span<const RectangleM> places) const {
  Condition condition;
  if (broken.is_mean_broken) {
    double laid_kn = 0.0;
    for (const Footprint& one : laid_) laid_kn += on_square_kn(one, broken.square);
    condition.room = broken.square_room_kn - laid_kn;
    for (const RectangleM& place : places) condition.take.push_back(on_square_kn(at(place), broken.square));
    return condition;
  }
  double laid = 0.0;
  for (const Footprint& one : laid_) laid += on_section(one, broken);
  condition.room = broken.section.allowance - laid;
  for (const RectangleM& place : places) condition.take.push_back(std::max(0.0, on_section(at(place), broken)));
  return condition;
}

Footprint PlaceTrial::at(const RectangleM& place) const {
  Footprint one = module_;
  one.rectangle = place;
  return one;
}

/// The worst that one footprint brings to the broken section: heavy where it presses, light where it relieves.
double PlaceTrial::on_section(const Footprint& one, const PlaceOutcome& broken) const {
  const BeamLine& line = broken.line;
  const bool is_x = line.along == design::SpanAxis::x;
  const RectangleM& r = one.rectangle;
  const double from_m = std::max(is_x ? r.left_m : r.bottom_m, line.beam.supports_m.front());
  const double to_m = std::min(is_x ? r.right_m : r.top_m, line.beam.supports_m.back());
  if (to_m - from_m <= 1e-6) return 0.0;
  const double share =
      share_of_line(one, line) * (to_m - from_m) / (is_x ? r.right_m - r.left_m : r.top_m - r.bottom_m);
  if (share <= 0.0) return 0.0;
  const double of_one_kn = effect_of_one_kn(line.beam, physics::solve_beam(line.beam, {from_m, to_m, 1.0}),
                                            broken.section.effect, broken.section.at_m);
  return std::max(share * one.dry_kn.low * of_one_kn, share * one.soaked_kn.high * of_one_kn);
}

double PlaceTrial::judge_mean(const std::vector<Footprint>& all, PlaceOutcome& outcome) const {
  if (averaging_m2_ <= 0.0) {
    double heaviest = 0.0;
    for (const Footprint& one : all) heaviest = std::max(heaviest, one.soaked_kn.high / area_m2(one));
    // A module that is too heavy by itself is too heavy anywhere: no condition would tell places apart.
    outcome.is_mean_broken = heaviest > figure_kn_per_m2_;
    outcome.square = all.empty() ? RectangleM{} : all.back().rectangle;
    outcome.square_room_kn = 0.0;
    return heaviest / figure_kn_per_m2_;
  }
  std::vector<LoadedRectangle> loaded;
  for (const Footprint& one : all) loaded.push_back({one.rectangle, one.soaked_kn.high / area_m2(one)});
  const HeaviestMean heaviest = find_heaviest_mean(loaded, std::sqrt(averaging_m2_));
  outcome.is_mean_broken = heaviest.load_kn_per_m2 > figure_kn_per_m2_;
  outcome.square = heaviest.square;
  outcome.square_room_kn = figure_kn_per_m2_ * averaging_m2_;
  return heaviest.load_kn_per_m2 / figure_kn_per_m2_;
}

double PlaceTrial::judge_sections(const SpanLoad& spans, PlaceOutcome& outcome) const {
  double nearness = 0.0;
  double worst = 0.0;
  for (const LineSections& line : spans.worst) {
    for (const Section& section : line.sections) {
      if (section.scale <= 0.0) continue;
      nearness = std::max(nearness, 1.0 + section.excess / section.scale);
      if (!is_beyond(section) || section.excess / section.scale <= worst) continue;
      worst = section.excess / section.scale;
      outcome.is_section_broken = true;
      outcome.line = spans.lines[static_cast<std::size_t>(line.line)];
      outcome.section = section;
    }
  }
  return nearness;
}

}  // namespace houseleek::checks
