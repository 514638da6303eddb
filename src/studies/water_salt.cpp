// Salty water, and rinsing of what was found.
#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "base/contract.hpp"
#include "base/nearest_name.hpp"
#include "planting/salt.hpp"
#include "report/words.hpp"
#include "results/interval.hpp"
#include "studies/water_parts.hpp"

namespace houseleek::studies {
namespace {

using report::Figure;

// Of water that runs through a heap, the share that moves salt: the rest runs down cracks. Ours.
constexpr results::Interval leaching_efficiency = {0.3, 0.6, 0.9};
constexpr double bucket_over_held = 3.0;       // a bucket holds so much more than the drained material in it
constexpr double hardly_salty_ds_per_m = 0.7;  // [ayers1985] Table 1, as remembered: below it no restriction

/// A plant that stands somewhere on the roof.
struct Standing {
  catalogue::Plant plant;
  std::string where;
};

std::vector<Standing> plants_of(const StoreInputs& inputs) {
  std::vector<Standing> plants;
  for (const StoreGroup& group : store_groups(inputs)) {
    const design::Recipe& recipe = inputs.design->recipes[static_cast<std::size_t>(group.recipe)];
    for (const design::RecipePlant& one : recipe.plants) {
      if (const catalogue::Plant* known = catalogue::find_plant(inputs.catalogue, one.name)) {
        plants.push_back({*known, recipe.name});
      }
    }
  }
  for (const design::Container& container : inputs.design->containers) {
    if (const catalogue::Plant* known = plant_in(container, inputs.catalogue))
      plants.push_back({*known, container.name});
  }
  return plants;
}

report::SaltyPlant salty_plant(const Standing& standing, std::optional<double> water_ds_per_m) {
  report::SaltyPlant answer;
  answer.plant = standing.plant.name;
  answer.where = standing.where;
  if (!standing.plant.salt_threshold_ds_per_m) {
    const std::string why = "no figure of how much salt it bears is known to us";
    answer.threshold_ds_per_m = results::figure_missing(why);
    answer.leaching_frac = results::figure_missing(why);
    answer.water_factor = results::figure_missing(why);
    answer.statement = fmt::format("{} ({}): {}.", answer.plant, answer.where, why);
    return answer;
  }
  const catalogue::Spread& threshold = *standing.plant.salt_threshold_ds_per_m;
  answer.threshold_ds_per_m =
      results::figure_with_range(threshold.likely, threshold.low, threshold.high, threshold.source);
  if (!water_ds_per_m) {
    const std::string why = "how salty the water is was not said: --salt 1.2, or watered --conductivity-ms-per-cm";
    answer.leaching_frac = results::figure_missing(why);
    answer.water_factor = results::figure_missing(why);
    answer.statement = fmt::format("{} ({}): bears {} dS/m in the medium.", answer.plant, answer.where,
                                   report::short_figure(answer.threshold_ds_per_m));
    return answer;
  }
  const double water = *water_ds_per_m;
  const auto requirement = [water](double bears) {
    if (5.0 * bears <= water) return 1.0;
    return std::min(1.0, planting::leaching_requirement_frac(water, bears));
  };
  const results::Interval share = {requirement(threshold.high), requirement(threshold.likely),
                                   requirement(threshold.low)};
  answer.leaching_frac = results::figure_with_range(share.likely, share.low, share.high,
                                                    "the range of what it bears; 1: no amount is enough");
  if (share.high >= 1.0) {
    answer.water_factor = results::figure_missing("at an end of the range no amount of this water is enough");
  } else {
    answer.water_factor = results::figure_with_range(
        planting::water_with_leaching(1.0, share.likely), planting::water_with_leaching(1.0, share.low),
        planting::water_with_leaching(1.0, share.high), "the range of what it bears");
  }
  if (share.likely >= 1.0) {
    answer.statement = fmt::format(
        "{} ({}): bears {} dS/m in the medium; with water of {:g} dS/m salt gathers above that whatever you give. Rain "
        "water, or another plant.",
        answer.plant, answer.where, report::short_figure(answer.threshold_ds_per_m), water);
  } else {
    answer.statement = fmt::format(
        "{} ({}): {} of the water given must run through, or salt gathers above the {} dS/m it bears; {}.",
        answer.plant, answer.where,
        fmt::format("{:.0f} % ({:.0f} to {:.0f})", 100.0 * share.likely, 100.0 * share.low, 100.0 * share.high),
        report::short_figure(answer.threshold_ds_per_m),
        answer.water_factor.value ? "give " + report::short_figure(answer.water_factor) + " times what it uses"
                                  : "at the high end no amount is enough");
  }
  return answer;
}

const catalogue::Material* material_named(const StoreInputs& inputs, const std::string& name) {
  for (const auto* list : {&inputs.design->own_materials, &inputs.catalogue.materials}) {
    for (const catalogue::Material& one : *list) {
      if (folded_name(one.name) == folded_name(name)) return &one;
    }
  }
  return nullptr;
}

/// The last reading of this material in the logbook.
std::optional<double> logged_reading(const StoreInputs& inputs, const std::string& material, std::string& from) {
  std::optional<double> reading;
  for (const logbook::EventRecord& record : inputs.records) {
    const logbook::Event& event = record.event;
    if (record.superseded_by || event.kind != logbook::EventKind::looked_at) continue;
    if (!event.conductivity_ms_per_cm || folded_name(event.item) != folded_name(material)) continue;
    reading = event.conductivity_ms_per_cm;
    from = fmt::format("event {}", record.number);
  }
  return reading;
}

report::RinseAnswer answer_rinse(const StoreInputs& inputs, const WaterRequest& request) {
  const catalogue::Material* material = material_named(inputs, request.rinse_material);
  expects(material != nullptr && material->field_capacity_frac.has_value(), "a material that was found before");
  report::RinseAnswer answer;
  answer.material = material->name;
  answer.target_ms_per_cm = request.rinse_target_ms_per_cm.value_or(0.0);
  answer.water_ms_per_cm = request.rinse_water_ms_per_cm;
  const catalogue::Spread& held = *material->field_capacity_frac;
  const catalogue::Spread& density = material->density_kg_per_m3;
  const results::Interval litres = {1000.0 * held.low / density.high, 1000.0 * held.likely / density.likely,
                                    1000.0 * held.high / density.low};
  answer.held_l_per_kg = results::figure_with_range(litres.likely, litres.low, litres.high,
                                                    "field capacity over dry density, ends of both");
  answer.bucket_l_per_kg = bucket_over_held * litres.likely;
  std::string from = "as given";
  std::optional<double> first = request.rinse_first_ms_per_cm;
  if (!first) first = logged_reading(inputs, material->name, from);
  if (!first || *first <= answer.target_ms_per_cm) {
    const std::string why =
        first ? fmt::format("the last reading, {:g} mS/cm ({}), is at the target already", *first, from)
              : "no reading: --rinse-from 6, or looked_at --item MATERIAL --conductivity-ms-per-cm 6";
    answer.first_ms_per_cm = first.value_or(0.0);
    answer.bucket_rinses = results::figure_missing(why);
    answer.through_l_per_kg = results::figure_missing(why);
    answer.statement = fmt::format("{}: {}.", answer.material, why);
    return answer;
  }
  answer.first_ms_per_cm = *first;
  const auto rinse_with = [&](double held_l_per_kg) {
    return planting::Rinse{*first, answer.target_ms_per_cm, answer.water_ms_per_cm, held_l_per_kg};
  };
  const auto rinses = [&](double held_l_per_kg) {
    return static_cast<double>(planting::bucket_rinses(rinse_with(held_l_per_kg), answer.bucket_l_per_kg));
  };
  answer.bucket_rinses = results::figure_with_range(rinses(litres.likely), rinses(litres.low), rinses(litres.high),
                                                    "what the material holds, low to high");
  answer.through_l_per_kg = results::figure_with_range(
      planting::leaching_litres_per_kg(rinse_with(litres.likely), leaching_efficiency.likely),
      planting::leaching_litres_per_kg(rinse_with(litres.low), leaching_efficiency.high),
      planting::leaching_litres_per_kg(rinse_with(litres.high), leaching_efficiency.low),
      "what it holds, and the share of the water that moves salt (0.3 to 0.9): our own estimate");
  answer.statement = fmt::format(
      "{}, a kilo dry: from {:g} to {:g} mS/cm ({}) by {:.0f} buckets ({:.0f} to {:.0f}) of {:.0f} l a kilo, each "
      "stirred, "
      "left an hour and poured off; or {} l let through slowly. Measure the last water that comes out: that reading "
      "counts, not this sum.",
      answer.material, *first, answer.target_ms_per_cm, from, *answer.bucket_rinses.value,
      answer.bucket_rinses.range->low, answer.bucket_rinses.range->high, answer.bucket_l_per_kg,
      report::short_figure(answer.through_l_per_kg));
  return answer;
}

}  // namespace

report::SaltAnswer answer_salt(const StoreInputs& inputs, const WaterRequest& request) {
  report::SaltAnswer salt;
  salt.water_ds_per_m = request.water_ds_per_m;
  salt.water_from = request.water_ds_per_m ? "as given" : "";
  if (!salt.water_ds_per_m) {
    for (const logbook::EventRecord& record : inputs.records) {
      const logbook::Event& event = record.event;
      if (record.superseded_by || event.kind != logbook::EventKind::watered) continue;
      if (!event.conductivity_ms_per_cm) continue;
      salt.water_ds_per_m = event.conductivity_ms_per_cm;
      salt.water_from = fmt::format("watered on {}, event {}", text_from_day(civil_day_of(event)), record.number);
    }
  }
  std::vector<std::string> no_spray;
  for (const Standing& standing : plants_of(inputs)) {
    salt.plants.push_back(salty_plant(standing, salt.water_ds_per_m));
    const auto& spray = standing.plant.salt_spray;
    if (spray && spray->tolerance == catalogue::Tolerance::none) no_spray.push_back(standing.plant.name);
  }
  if (salt.water_ds_per_m && *salt.water_ds_per_m <= hardly_salty_ds_per_m) {
    salt.statements.push_back(fmt::format(
        "Water of {:g} dS/m is hardly salty; in bags and thin modules salt still gathers where nothing ever runs "
        "through: let them drip at each watering.",
        *salt.water_ds_per_m));
  }
  if (!no_spray.empty()) {
    salt.statements.push_back(fmt::format(
        "Salt spray: {} {} none. Near the sea, after wind from it: rinse the leaves with fresh water the same "
        "day. Common practice, no source.",
        report::joined(no_spray), no_spray.size() == 1 ? "bears" : "bear"));
  }
  salt.statements.push_back(
      "CAUTION: rinse on the ground, not on the roof. Salty run-off rusts steel in concrete, gratings, zinc and "
      "aluminium; never let it stand on the roof or run down a downpipe of metal, and not into a garden bed.");
  if (!request.rinse_material.empty()) salt.rinse = answer_rinse(inputs, request);
  return salt;
}

}  // namespace houseleek::studies
