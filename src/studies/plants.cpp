// `houseleek plants`: what lives on this roof, what could, mixes in bloom all year, what is invasive, what is raised.
#include "studies/plants.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/month_name.hpp"
#include "base/nearest_name.hpp"
#include "base/number_words.hpp"
#include "base/toml_fields.hpp"
#include "checks/cautions.hpp"
#include "planting/food.hpp"
#include "planting/invasive.hpp"
#include "planting/mixes.hpp"
#include "studies/plant_nursery.hpp"
#include "studies/plant_places.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {
namespace {

using catalogue::Plant;
using design::PlantOrigin;
using planting::Purpose;
using planting::Standing;
using planting::Survival;
using report::PlantAtPlace;
using report::PlantsOfPlace;

std::string_view word_of(PlantOrigin origin) {
  for (const auto& [word, value] : design::plant_origin_words) {
    if (value == origin) return word;
  }
  return "new";
}

std::string_view word_of(catalogue::Sun sun) {
  for (const auto& [word, value] : catalogue::sun_words) {
    if (value == sun) return word;
  }
  return "";
}

std::vector<std::string> hazards_of(const Plant& plant) {
  std::vector<std::string> words;
  for (const catalogue::Hazard hazard : plant.hazards) {
    for (const auto& [word, value] : catalogue::hazard_words) {
      if (value == hazard) words.emplace_back(word);
    }
  }
  return words;
}

catalogue::Hemisphere hemisphere_of(const design::Site& site) {
  return site.latitude_deg >= 0.0 ? catalogue::Hemisphere::north : catalogue::Hemisphere::south;
}

/// What grows at a place, as the design says it.
std::vector<std::pair<std::string, PlantOrigin>> plants_there(const design::Design& design, const PlantPlace& place) {
  std::vector<std::pair<std::string, PlantOrigin>> there;
  if (place.recipe >= 0) {
    for (const design::RecipePlant& one : design.recipes[static_cast<std::size_t>(place.recipe)].plants) {
      there.emplace_back(one.name, one.origin);
    }
  } else {
    const auto& plant = design.containers[static_cast<std::size_t>(place.container)].plant;
    if (plant) there.emplace_back(plant->name, plant->origin);
  }
  return there;
}

/// One sentence: all that is against it, or in a few figures what it bears.
std::string sentence_of(const Plant& plant, const planting::Judged& judged, const planting::Place& place) {
  if (judged.word != Survival::likely) {
    std::string text;
    for (const planting::Reason& reason : judged.reasons) {
      if (reason.word != Survival::likely) text += (text.empty() ? "" : "; ") + reason.text;
    }
    return text + ".";
  }
  std::string text =
      plant.lifespan == catalogue::Lifespan::season && judged.first_month
          ? fmt::format("one season, {}", planting::months_in_words(*judged.first_month, *judged.last_month))
          : fmt::format("bears {:.0f} degC", plant.lowest_temperature_c->likely);
  text += fmt::format("; lives in {:.0f} mm", plant.medium_depth_mm->likely);
  if (place.dry && place.dry->high >= 1.0) {
    text += fmt::format("; bears about {:.0f} dry days",
                        planting::days_beyond_store(plant.dry_spell_days->likely, place.reference_days));
  }
  const int n_months = planting::months_in_bloom(plant);
  if (n_months > 0) text += fmt::format("; {}", counted(n_months, "month in bloom", "months in bloom"));
  return text + ".";
}

struct Looked {
  PlantAtPlace answer;
  planting::Judged judged;
  planting::InvasiveWord invasive;
  const Plant* plant = nullptr;
};

Looked look_at(const PlantsInputs& inputs, const PlantPlace& place, const Plant& plant, PlantOrigin origin,
               std::span<const planting::Batch> batches) {
  Looked looked;
  looked.plant = &plant;
  looked.judged = planting::judge(plant, place.place);
  const design::Site& site = inputs.design->site;
  looked.invasive = planting::judge_invasive(plant, site.country, origin, {place.n_modules, hemisphere_of(site)});
  PlantAtPlace& answer = looked.answer;
  answer.name = plant.name;
  answer.common_name = plant.common_name;
  answer.group = plant.group;
  answer.hazards = hazards_of(plant);
  answer.survival = planting::word_of(looked.judged.word);
  answer.reasons = looked.judged.reasons;
  answer.first_month = looked.judged.first_month;
  answer.last_month = looked.judged.last_month;
  answer.standing = planting::word_of(looked.invasive.standing);
  answer.standing_text = looked.invasive.text;
  answer.origin = word_of(origin);
  answer.eaten = plant.eaten;
  for (const auto& [word, purpose] : planting::purpose_words) {
    if (const auto service = planting::service_of(plant, purpose)) {
      answer.serves.push_back({std::string(word), service->worth, service->text});
    }
  }
  answer.lost_here = planting::losses_on_roof(inputs.records, batches, inputs.catalogue, plant.name);
  answer.sentence = sentence_of(plant, looked.judged, place.place);
  return looked;
}

double worth_for(const PlantAtPlace& plant, std::string_view purpose) {
  for (const report::PlantService& one : plant.serves) {
    if (one.purpose == purpose) return one.worth;
  }
  return -1.0;
}

int rank_of(const Looked& looked) {
  const bool is_out = looked.invasive.standing == Standing::refused;
  const int advised = looked.invasive.standing == Standing::advised_against ? 1 : 0;
  return is_out ? 9 : 2 * static_cast<int>(looked.judged.word) + advised;
}

/// Best first: the word, the lists, the purpose, else what serves cover, bloom and bees together, then the name.
void sort_choices(std::vector<Looked>& choices, const std::string& purpose) {
  const auto worth = [&](const Looked& one) {
    if (!purpose.empty()) return worth_for(one.answer, purpose);
    return std::max(0.0, worth_for(one.answer, "bloom")) + std::max(0.0, worth_for(one.answer, "bees"));
  };
  std::stable_sort(choices.begin(), choices.end(), [&](const Looked& a, const Looked& b) {
    const int rank_a = rank_of(a);
    const int rank_b = rank_of(b);
    if (rank_a != rank_b) return rank_a < rank_b;
    const double worth_a = worth(a);
    const double worth_b = worth(b);
    return worth_a != worth_b ? worth_a > worth_b : a.answer.name < b.answer.name;
  });
}

std::vector<int> months_of(planting::MonthSet set) {
  std::vector<int> months;
  for (int month = 1; month <= 12; ++month) {
    if ((set >> (month - 1) & 1) != 0) months.push_back(month);
  }
  return months;
}

/// Kinds that would live there and that no list is against, with what is in bloom there already.
report::MixAnswer make_mix(const std::vector<Looked>& choices, planting::MonthSet already, const PlantPlace& place,
                           catalogue::Hemisphere hemisphere, std::size_t n_there) {
  std::vector<planting::BloomChoice> bloom;
  std::vector<const Plant*> plants;
  for (const Looked& one : choices) {
    if (one.judged.word != Survival::likely || one.invasive.standing != Standing::not_listed) continue;
    if (one.plant->group == "tree" && !place.place.is_container) continue;
    bloom.push_back(
        {planting::bloom_bits(*one.plant, hemisphere), one.plant->bee_worth * planting::months_in_bloom(*one.plant)});
    plants.push_back(one.plant);
  }
  const planting::BloomMix found = planting::find_bloom_mix(bloom, already);
  report::MixAnswer mix;
  const double n_kinds = static_cast<double>(found.chosen.size() + n_there);
  std::string names;
  for (const std::size_t i : found.chosen) {
    const Plant& plant = *plants[i];
    const double plant_m2 = 1e-6 * plant.width_mm->likely * plant.width_mm->likely;
    mix.plants.push_back(
        {plant.name, plant.common_name, std::max(1.0, std::round(place.module_m2 / n_kinds / plant_m2))});
    names += (names.empty() ? "" : ", ") + plant.name;
  }
  mix.months_in_bloom = months_of(found.in_bloom);
  mix.months_never = months_of(found.never);
  if (found.in_bloom == 0) {
    mix.sentence = "nothing that would live here blooms to speak of.";
  } else if (names.empty()) {
    mix.sentence = "nothing to add; it blooms in every month in which any plant fit for this place does.";
  } else {
    mix.sentence =
        fmt::format("{}{}: in bloom {}", n_there > 0 ? "add " : "", names, planting::months_in_words(found.in_bloom));
    mix.sentence += found.never == 0 ? std::string(".")
                                     : fmt::format("; nothing fit for this place blooms in {}.",
                                                   planting::months_in_words(found.never));
  }
  return mix;
}

void count(const Looked& one, PlantsOfPlace& answer, std::map<std::string, int>& fallen) {
  if (one.invasive.standing == Standing::refused) {
    ++answer.n_refused;
    return;
  }
  switch (one.judged.word) {
    case Survival::likely:
      ++answer.n_likely;
      break;
    case Survival::doubtful:
      ++answer.n_doubtful;
      break;
    case Survival::no:
      ++answer.n_no;
      ++fallen[one.judged.reasons.front().about];
      break;
  }
}

PlantsOfPlace answer_place(const PlantsInputs& inputs, const PlantsRequest& request, const PlantPlace& place,
                           std::span<const planting::Batch> batches, std::vector<report::KeptIn>& kept_in) {
  const design::Design& design = *inputs.design;
  const catalogue::Hemisphere hemisphere = hemisphere_of(design.site);
  PlantsOfPlace answer;
  answer.name = place.place.name;
  answer.kind = place.recipe >= 0 ? "recipe" : "container";
  answer.n_modules = place.n_modules;
  answer.rooms = place.rooms;
  answer.medium_depth_mm = place.place.medium_depth_mm;
  answer.sun = word_of(place.place.sun);
  if (const auto& dry = place.place.dry) {
    answer.dry_days = results::figure_with_range(
        dry->likely, dry->low, dry->high,
        fmt::format("{} years of rain, one year in ten less, one in ten more; watered as the recipe says",
                    inputs.years.size()));
    answer.dry_month = dry->when;
  } else {
    answer.dry_days = results::figure_missing(place.place.why_no_dry);
  }
  if (place.recipe >= 0) {
    const planting::FoodWord food = planting::food_in(design.recipes[static_cast<std::size_t>(place.recipe)]);
    answer.edible = planting::word_of(food.word);
    answer.edible_because = food.because;
  } else {
    const planting::FoodWord food =
        planting::food_of_material(design.containers[static_cast<std::size_t>(place.container)].fill.material);
    answer.edible = planting::word_of(food.word);
    answer.edible_because = food.because;
  }
  std::vector<std::string> names_there;
  std::vector<Looked> there;
  planting::MonthSet bloom_there = 0;
  std::size_t n_there = 0;
  for (const auto& [name, origin] : plants_there(design, place)) {
    const Plant* plant = catalogue::find_plant(inputs.catalogue, name);
    if (plant == nullptr) continue;
    const Looked looked = look_at(inputs, place, *plant, origin, batches);
    names_there.push_back(plant->name);
    ++n_there;
    if (looked.judged.word != Survival::no) {
      bloom_there = static_cast<planting::MonthSet>(bloom_there | planting::bloom_bits(*plant, hemisphere));
    }
    if (looked.invasive.standing != Standing::not_listed) {
      kept_in.push_back({plant->name, answer.name, std::string(planting::word_of(looked.invasive.standing)),
                         looked.invasive.text, looked.invasive.steps, looked.invasive.from_wild});
    }
    answer.there.push_back(looked.answer);
    there.push_back(looked);
  }
  std::vector<Looked> choices;
  std::map<std::string, int> fallen;
  for (const Plant& plant : inputs.catalogue.plants) {
    if (std::find(names_there.begin(), names_there.end(), plant.name) != names_there.end()) continue;
    choices.push_back(look_at(inputs, place, plant, PlantOrigin::fresh, batches));
    count(choices.back(), answer, fallen);
  }
  for (const auto& [about, n_plants] : fallen) answer.fallen_out.push_back({about, n_plants});
  std::stable_sort(answer.fallen_out.begin(), answer.fallen_out.end(),
                   [](const auto& a, const auto& b) { return a.n_plants > b.n_plants; });
  sort_choices(choices, request.purpose);
  std::vector<Looked> all = there;
  all.insert(all.end(), choices.begin(), choices.end());
  answer.mix = make_mix(all, 0, place, hemisphere, 0);
  answer.additions = make_mix(choices, bloom_there, place, hemisphere, n_there);
  const Plant* asked = request.plant.empty() ? nullptr : catalogue::find_plant(inputs.catalogue, request.plant);
  for (const Looked& one : choices) {
    if (!request.purpose.empty() && worth_for(one.answer, request.purpose) < 0.0) continue;
    if (asked != nullptr && one.plant != asked) continue;
    answer.choices.push_back(one.answer);
  }
  return answer;
}

bool is_asked(const PlantsRequest& request, const PlantPlace& place) {
  if (!request.recipe.empty() && folded_name(place.place.name) != folded_name(request.recipe)) return false;
  if (request.room.empty()) return true;
  return std::any_of(place.rooms.begin(), place.rooms.end(),
                     [&](const std::string& room) { return folded_name(room) == folded_name(request.room); });
}

std::vector<report::TreeInContainer> trees_of(const PlantsInputs& inputs) {
  std::vector<report::TreeInContainer> trees;
  for (const design::Container& container : inputs.design->containers) {
    if (!container.plant) continue;
    const Plant* plant = catalogue::find_plant(inputs.catalogue, container.plant->name);
    if (plant == nullptr || plant->group != "tree") continue;
    report::TreeInContainer tree{plant->name, container.name, {}};
    if (container.plant->since) tree.leave_roof = planting::leave_roof(*plant, *container.plant->since);
    trees.push_back(std::move(tree));
  }
  return trees;
}

bool has_live_canes(const design::Design& design) {
  const auto is_live = [](const catalogue::Material& material) {
    return catalogue::has_hazard(material.hazards, catalogue::Hazard::live_shoots);
  };
  return std::any_of(design.recipes.begin(), design.recipes.end(), [&](const design::Recipe& recipe) {
    return (recipe.cover && is_live(recipe.cover->material)) ||
           std::any_of(recipe.layers.begin(), recipe.layers.end(),
                       [&](const design::RecipeLayer& layer) { return is_live(layer.layer.material); });
  });
}

/// What grows there, then what the mixes name, each once.
std::vector<const Plant*> plants_of_calendar(const report::PlantsAnswer& answer, const catalogue::Catalogue& all) {
  std::vector<const Plant*> plants;
  const auto add = [&](const std::string& name) {
    const Plant* plant = catalogue::find_plant(all, name);
    if (plant != nullptr && std::find(plants.begin(), plants.end(), plant) == plants.end()) plants.push_back(plant);
  };
  for (const PlantsOfPlace& place : answer.places) {
    for (const PlantAtPlace& one : place.there) add(one.name);
  }
  for (const PlantsOfPlace& place : answer.places) {
    for (const report::MixPlant& one : place.additions.plants) add(one.name);
  }
  return plants;
}

std::vector<catalogue::Caution> cautions_of(const PlantsInputs& inputs) {
  std::vector<catalogue::Caution> cautions = checks::find_cautions(inputs.design, inputs.catalogue);
  std::erase_if(cautions, [](const catalogue::Caution& one) { return one.beside != "plants"; });
  return cautions;
}

std::string statement_of(const report::PlantsAnswer& answer) {
  int n_there = 0;
  int n_not = 0;
  for (const PlantsOfPlace& place : answer.places) {
    for (const PlantAtPlace& one : place.there) {
      ++n_there;
      n_not += one.survival == "likely" ? 0 : 1;
    }
  }
  const std::string there =
      n_there == 0 ? std::string("no plants are named in the description")
      : n_not == 0
          ? fmt::format("{} named in the description will likely live", counted(n_there, "planting", "plantings"))
          : fmt::format("{} of {} named in the description {} not sure to live", n_not,
                        counted(n_there, "planting", "plantings"), n_not == 1 ? "is" : "are");
  int n_against = 0;
  for (const report::KeptIn& one : answer.kept_in) n_against += one.standing == "keep_in" ? 0 : 1;
  const std::string lists =
      n_against == 0 ? std::string() : fmt::format("; lists of your country are against {} of them", n_against);
  return fmt::format("{}{}; one winter in {:.0f} has a night of {:.0f} degC", there, lists,
                     planting::winter_return_years, std::round(*answer.coldest_night_c.value) + 0.0);
}

template <class Named>
std::vector<std::string> names_of(const std::vector<Named>& all) {
  std::vector<std::string> names;
  for (const Named& one : all) names.push_back(one.name);
  return names;
}

bool is_among(const std::vector<std::string>& names, const std::string& name) {
  return std::any_of(names.begin(), names.end(),
                     [&](const std::string& one) { return folded_name(one) == folded_name(name); });
}

void add_unknown(Issues& issues, std::string path, std::string_view what, const std::string& given,
                 const std::vector<std::string>& known) {
  Issue issue;
  issue.code = IssueCode::unknown_name;
  issue.path = std::move(path);
  issue.value = given;
  issue.limit = known.size() <= 12 ? joined_names(known) : std::string("a name of the catalogue");
  issue.message = fmt::format("{}: there is no {} \"{}\"", issue.path, what, given);
  const std::optional<std::string> nearest = find_nearest_name(given, known);
  issue.hint = nearest         ? fmt::format("did you mean \"{}\"?", *nearest)
               : known.empty() ? fmt::format("the description has no {}", what)
                               : fmt::format("known: {}", issue.limit);
  issues.push_back(std::move(issue));
}

}  // namespace

Issues issues_of_plants_request(const PlantsRequest& request, const design::Design& design,
                                const catalogue::Catalogue& catalogue) {
  Issues issues;
  const std::vector<std::string> rooms = names_of(design.rooms);
  if (!request.room.empty() && !is_among(rooms, request.room)) add_unknown(issues, "room", "room", request.room, rooms);
  std::vector<std::string> places = names_of(design.recipes);
  for (const std::string& name : names_of(design.containers)) places.push_back(name);
  if (!request.recipe.empty() && !is_among(places, request.recipe)) {
    add_unknown(issues, "recipe", "recipe or container", request.recipe, places);
  }
  std::vector<std::string> purposes;
  for (const auto& [word, purpose] : planting::purpose_words) purposes.emplace_back(word);
  if (!request.purpose.empty() && std::find(purposes.begin(), purposes.end(), request.purpose) == purposes.end()) {
    add_unknown(issues, "for", "purpose", request.purpose, purposes);
  }
  const Issues of_raising = issues_of_raising({request.plant, request.way, request.raise, request.by}, catalogue);
  issues.insert(issues.end(), of_raising.begin(), of_raising.end());
  return issues;
}

Result<report::PlantsAnswer> answer_plants(const PlantsInputs& inputs, const PlantsRequest& request) {
  const design::Design& design = *inputs.design;
  Issues issues = issues_of_plants_request(request, design, inputs.catalogue);
  if (!issues.empty()) return Unexpected{std::move(issues)};
  const Winter winter = winter_of(inputs.years, weather_source(design));
  const planting::BatchRecords found = planting::find_batches(inputs.records, inputs.catalogue);
  report::PlantsAnswer answer;
  answer.design_name = design.name;
  answer.is_invented = design.is_invented;
  answer.engine_version = request.engine_version;
  answer.input_hash = request.input_hash;
  answer.on = request.on;
  answer.purpose = request.purpose;
  if (const Plant* asked = catalogue::find_plant(inputs.catalogue, request.plant)) answer.plant = asked->name;
  answer.cautions = cautions_of(inputs);
  answer.coldest_night_c =
      results::figure_with_range(winter.coldest.likely_c, winter.coldest.low_c, winter.coldest.high_c, winter.from);
  answer.coldest_night_mean_c = results::figure_without_range(
      winter.coldest.mean_c, "mean of the years, shown beside the night plants are judged by");
  const double wind = wind_of_twentieth_hour(inputs.weather, design.site.wind_factor);
  answer.wind_m_per_s = results::figure_without_range(wind, "counted in the hours of one year");
  answer.country = design.site.country;
  answer.lists = planting::lists_of_country(inputs.catalogue.plants, design.site.country);
  answer.wild = planting::wild_rule(has_live_canes(design));
  const planting::FoodWord water = planting::food_from_roof_water(design.roof);
  answer.roof_water_edible = planting::word_of(water.word);
  answer.roof_water_because = water.because;
  for (const PlantPlace& place : plant_places({inputs.design, inputs.water, inputs.weather, inputs.years}, winter)) {
    if (answer.climate.empty()) answer.climate = planting::climate_name(place.place.climates.front());
    if (!is_asked(request, place)) continue;
    answer.places.push_back(answer_place(inputs, request, place, found.batches, answer.kept_in));
  }
  answer.trees = trees_of(inputs);
  planting::CalendarYear calendar_year;
  calendar_year.hemisphere = hemisphere_of(design.site);
  const climate::YearSummary months = climate::summarise(inputs.weather);
  for (std::size_t month = 0; month < 12; ++month) calendar_year.has_frost[month] = months.min_c[month] < 0.0;
  answer.calendar =
      planting::make_calendar(plants_of_calendar(answer, inputs.catalogue), inputs.catalogue.raising, calendar_year);
  answer.batches = answers_of_batches(found.batches, inputs.catalogue);
  answer.due = planting::due_of_batches(found.batches, inputs.catalogue, request.today);
  answer.left_out = found.left_out;
  if (!request.raise.empty()) {
    answer.raise = answer_raising({request.plant, request.way, request.raise, request.by}, inputs.catalogue,
                                  found.batches, hemisphere_of(design.site));
  }
  answer.statement = statement_of(answer);
  return answer;
}

}  // namespace houseleek::studies
