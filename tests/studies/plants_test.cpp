// The command `plants` on a small house: climates by name, a frost climate, lists, own losses, and words that are wrong.
#include "studies/plants.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "base/civil_time.hpp"
#include "logbook/read_event.hpp"
#include "report/plants_json.hpp"
#include "report/plants_text.hpp"
#include "studies/plant_places.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"
#include "support/small_design.hpp"

namespace houseleek::studies {
namespace {

using tests::Edit;
using tests::edited;
using tests::shipped_catalogue;
using tests::small_design_text;
using tests::valid_design;

/// As a run would tell it: so many days from full to dry in every month, of the small house's one recipe.
report::WaterAnswer water_of(double days) {
  report::WaterAnswer water;
  report::WaterByRecipe recipe;
  recipe.name = "thin stonecrop";
  recipe.can_wait_days_by_month.fill(results::figure_without_range(days, "for this test"));
  water.recipes.push_back(recipe);
  return water;
}

struct Asked {
  std::vector<Edit> edits;
  PlantsRequest request;
  std::vector<logbook::EventRecord> records;
};

Result<report::PlantsAnswer> ask(const Asked& asked) {
  const design::ValidDesign design = valid_design(edited(small_design_text(), asked.edits));
  const catalogue::Catalogue catalogue = shipped_catalogue();
  const climate::WeatherYear weather = make_weather(design, std::nullopt).value();
  const std::vector<climate::WeatherYear> at_hand = {weather};
  const std::vector<climate::WeatherYear> years = years_for_plants(design, at_hand);
  return answer_plants({design, catalogue, water_of(5.0), weather, years, asked.records}, asked.request);
}

const report::PlantAtPlace* find(const std::vector<report::PlantAtPlace>& plants, std::string_view name) {
  const auto found = std::find_if(plants.begin(), plants.end(), [&](const auto& one) { return one.name == name; });
  return found == plants.end() ? nullptr : &*found;
}

const std::vector<Edit> bitter_winter = {{"14, 13, 14, 18, 20", "-4, -4, -4, 18, 20"},
                                         {"5, 4, 5, 9, 10", "-14, -14, -14, 9, 10"}};
const Edit deeper = {"thickness_mm = 40", "thickness_mm = 120"};
const Edit in_spain = {"surroundings = \"suburb\"\n", "surroundings = \"suburb\"\ncountry = \"ES\"\n"};

TEST(PlantsAnswer, AFrostClimateRemovesTenderPlantsAndSaysWhy) {
  std::vector<Edit> edits = bitter_winter;
  edits.push_back(deeper);
  const report::PlantsAnswer mild = ask({.edits = {deeper}, .request = {}, .records = {}}).value();
  const report::PlantsAnswer frost = ask({.edits = edits, .request = {}, .records = {}}).value();
  EXPECT_LT(*frost.coldest_night_c.value, *mild.coldest_night_c.value - 10.0);
  const report::PlantAtPlace* gazania = find(frost.places[0].choices, "Gazania rigens");
  ASSERT_NE(gazania, nullptr);
  EXPECT_EQ(gazania->survival, "no");
  EXPECT_NE(gazania->sentence.find("one winter in 20 has a night of"), std::string::npos) << gazania->sentence;
  EXPECT_NE(find(mild.places[0].choices, "Gazania rigens")->survival, "no");
  const report::PlantAtPlace* album = find(frost.places[0].there, "Sedum album");
  // The invented climate leaps from hot to bitter, so its nights scatter widely: -36 degC once in 20 years.
  EXPECT_NE(album->survival, "no") << album->sentence;
  const auto out_for_winter = [](const report::PlantsAnswer& answer) {
    for (const report::FallenOut& one : answer.places[0].fallen_out) {
      if (one.about == "winter") return one.n_plants;
    }
    return 0;
  };
  EXPECT_GT(out_for_winter(frost), out_for_winter(mild) + 10);
  EXPECT_EQ(frost.climate, "cold");
}

TEST(PlantsAnswer, DeeperMediumNeverRemovesAPlant) {
  const report::PlantsAnswer thin = ask({{}, {}, {}}).value();
  const report::PlantsAnswer deep = ask({{deeper}, {}, {}}).value();
  EXPECT_GT(deep.places[0].n_likely, thin.places[0].n_likely);
  const auto rank = [](const std::string& word) { return word == "likely" ? 0 : word == "doubtful" ? 1 : 2; };
  for (const report::PlantAtPlace& plant : thin.places[0].choices) {
    const report::PlantAtPlace* there = find(deep.places[0].choices, plant.name);
    ASSERT_NE(there, nullptr);
    EXPECT_LE(rank(there->survival), rank(plant.survival)) << plant.name;
  }
}

TEST(PlantsAnswer, InvasiveInItsThreeStates) {
  const std::string fig = "[[recipe.plant]]\nname = \"Carpobrotus edulis\"\ncover_frac = 0.1\n";
  const auto with = [&](const std::string& origin) {
    return ask({{in_spain, {"[recipe.watering]\n", fig + origin + "[recipe.watering]\n"}}, {}, {}}).value();
  };
  const report::PlantsAnswer without = ask({{in_spain}, {}, {}}).value();
  const report::PlantAtPlace* choice = find(without.places[0].choices, "Carpobrotus edulis");
  ASSERT_NE(choice, nullptr);
  EXPECT_EQ(choice->standing, "refused");
  EXPECT_NE(choice->standing_text.find("Real Decreto 630/2013"), std::string::npos);
  EXPECT_GT(without.places[0].n_refused, 0);
  // What is refused is in no mix.
  for (const report::MixAnswer* mix : {&without.places[0].mix, &without.places[0].additions}) {
    for (const report::MixPlant& plant : mix->plants) {
      EXPECT_EQ(find(without.places[0].choices, plant.name) == nullptr
                    ? "there"
                    : find(without.places[0].choices, plant.name)->standing,
                find(without.places[0].choices, plant.name) == nullptr ? "there" : "not_listed");
    }
  }
  const report::PlantsAnswer fresh = with("");
  ASSERT_EQ(fresh.kept_in.size(), 1U);
  EXPECT_EQ(fresh.kept_in[0].standing, "refused");
  EXPECT_TRUE(fresh.kept_in[0].steps.empty());
  const report::PlantsAnswer here = with("origin = \"already_here\"\n");
  ASSERT_EQ(here.kept_in.size(), 1U);
  EXPECT_EQ(here.kept_in[0].standing, "keep_in");
  EXPECT_EQ(here.kept_in[0].steps.size(), 4U);
  const report::PlantsAnswer wild = with("origin = \"from_wild\"\n");
  EXPECT_EQ(wild.kept_in[0].standing, "refused");
  EXPECT_NE(wild.kept_in[0].from_wild.find("may not be taken"), std::string::npos);
  // The household reads it too.
  EXPECT_NE(report::text_from(here).find("[ ] Edge:"), std::string::npos);
  EXPECT_NE(ask({{}, {}, {}}).value().lists.find("names no country"), std::string::npos);
}

TEST(PlantsAnswer, WrongWordsAreAllNamedAtOnce) {
  PlantsRequest request;
  request.room = "bedrom";
  request.recipe = "thick stonecrop";
  request.purpose = "fun";
  request.plant = "Sedum albun";
  request.way = "roots";
  request.raise = "many";
  request.by = "spring";
  const Result<report::PlantsAnswer> answer = ask({{}, request, {}});
  ASSERT_FALSE(answer);
  std::vector<std::string> paths;
  for (const Issue& issue : answer.error()) {
    paths.push_back(issue.path);
    EXPECT_FALSE(issue.message.empty());
    EXPECT_FALSE(issue.value.empty() && issue.limit.empty());
  }
  EXPECT_EQ(paths, (std::vector<std::string>{"room", "recipe", "for", "plant", "raise", "by", "from"}));
  EXPECT_EQ(answer.error()[0].hint, "did you mean \"bedroom\"?");
  EXPECT_EQ(answer.error()[3].hint, "did you mean \"Sedum album\"?");
}

TEST(PlantsAnswer, HalfAWishIsNotGuessed) {
  PlantsRequest request;
  request.raise = "12";
  const Result<report::PlantsAnswer> half = ask({{}, request, {}});
  ASSERT_FALSE(half);
  ASSERT_EQ(half.error().size(), 2U);
  EXPECT_EQ(half.error()[0].path, "plant");
  EXPECT_EQ(half.error()[1].path, "by");
  PlantsRequest only_day;
  only_day.by = "2027-04-01";
  EXPECT_EQ(ask({{}, only_day, {}}).error().front().path, "raise");
  PlantsRequest other_way;
  other_way.plant = "creeping thyme";
  other_way.way = "seed";  // division or cuttings
  EXPECT_EQ(ask({{}, other_way, {}}).error().front().message, "from: Thymus serpyllum is not raised from seed");
}

/// Through the one door of the logbook.
logbook::EventRecord noted(const std::string& kind, const std::string& day,
                           std::vector<std::pair<std::string, std::string>> fields) {
  static std::int64_t number = 0;
  fields.emplace_back("at", day);
  logbook::EventRecord record;
  record.number = ++number;
  record.event = logbook::read_event({kind, fields}, {"Europe/Rome", std::int64_t{2'000'000'000}, "EUR"}).value();
  return record;
}

TEST(PlantsAnswer, AShareOnlyFromOwnLosses) {
  const std::string batch = "white stonecrop cuttings";
  std::vector<logbook::EventRecord> records = {
      noted("sown", "2024-03-05", {{"batch", batch}, {"count", "80"}}),
      noted("ready", "2024-04-20", {{"batch", batch}, {"count", "70"}}),
      noted("planted_out", "2024-04-27", {{"batch", batch}, {"count", "64"}}),
      noted("died", "2024-08-20", {{"item", "white stonecrop"}, {"count", "4"}})};
  const auto text_with = [&](const std::vector<logbook::EventRecord>& logged) {
    std::string text = report::text_from(ask({{}, {}, logged}).value());
    std::replace(text.begin(), text.end(), '\n', ' ');
    for (std::size_t at = 0; (at = text.find("  ", at)) != std::string::npos;) text.erase(at, 1);
    return text;
  };
  EXPECT_NE(text_with(records).find("4 of 64 planted out, too few to say"), std::string::npos);
  // Without a logbook no share of survival stands anywhere.
  EXPECT_EQ(text_with({}).find(" %"), std::string::npos);
  records.push_back(noted("died", "2024-09-20", {{"item", "white stonecrop"}, {"count", "4"}}));
  const report::PlantsAnswer own = ask({{}, {}, records}).value();
  const auto& lost = own.places[0].there[0].lost_here;
  ASSERT_TRUE(lost.has_value());
  EXPECT_FALSE(lost->is_too_few);
  EXPECT_DOUBLE_EQ(lost->share, 0.125);
  // And own losses stand behind the next plan: 10 of 80 lost until ready.
  PlantsRequest request;
  request.plant = "white stonecrop";
  request.way = "cuttings";
  request.raise = "70";
  request.by = "2025-05-01";
  const report::PlantsAnswer plan = ask({{}, request, records}).value();
  ASSERT_TRUE(plan.raise.has_value());
  EXPECT_EQ(plan.raise->plan.to_begin, 80.0);                          // 70 / (70 / 80)
  EXPECT_EQ(text_from_day(plan.raise->plan.begin_day), "2025-03-22");  // 40 days before
  EXPECT_NE(plan.raise->sentence.find("your own losses, 1 batch"), std::string::npos) << plan.raise->sentence;
}

TEST(PlantsAnswer, RoomAndPurpose) {
  PlantsRequest request;
  request.room = "Bedroom";
  request.purpose = "bees";
  const report::PlantsAnswer answer = ask({{deeper}, request, {}}).value();
  ASSERT_EQ(answer.places.size(), 1U);
  const std::vector<report::PlantAtPlace>& choices = answer.places[0].choices;
  ASSERT_GT(choices.size(), 10U);
  double before = 99.0;
  for (const report::PlantAtPlace& plant : choices) {
    if (plant.survival != "likely" || plant.standing != "not_listed") break;
    const auto bees =
        std::find_if(plant.serves.begin(), plant.serves.end(), [](const auto& one) { return one.purpose == "bees"; });
    ASSERT_NE(bees, plant.serves.end()) << plant.name;
    EXPECT_LE(bees->worth, before);
    before = bees->worth;
  }
}

TEST(PlantsAnswer, TreesInTubsLeaveTheRoof) {
  const Edit tub = {"[rivals]",
                    "[[container]]\nname = \"tub\"\nmedium = \"crushed brick\"\nfill_mm = 450\nempty_kg = 5\n"
                    "plant_kg = 5\nat = [3.2, 0.8]\ndiameter_mm = 500\n[container.plant]\nname = \"olive\"\n"
                    "since = 2024-03-01\n[rivals]"};
  const report::PlantsAnswer answer = ask({{tub}, {}, {}}).value();
  ASSERT_EQ(answer.places.size(), 2U);
  EXPECT_EQ(answer.places[1].kind, "container");
  EXPECT_FALSE(answer.places[1].dry_days.value.has_value());
  ASSERT_EQ(answer.trees.size(), 1U);
  ASSERT_TRUE(answer.trees[0].leave_roof.has_value());
  EXPECT_EQ(text_from_day(answer.trees[0].leave_roof->day), "2030-03-02");  // 6 years of 365.25 days, rounded
  EXPECT_NE(report::text_from(answer).find("Trees are guests on a roof"), std::string::npos);
}

climate::YearSummary months_of(const climate::Months& mean_c, const climate::Months& rain_mm) {
  climate::YearSummary months;
  for (std::size_t i = 0; i < 12; ++i) {
    months.max_c[i] = mean_c[i] + 4.0;
    months.min_c[i] = mean_c[i] - 4.0;
    months.rain_mm[i] = rain_mm[i];
  }
  return months;
}

climate::Months turned(const climate::Months& months) {
  climate::Months other{};
  for (std::size_t i = 0; i < 12; ++i) other[(i + 6) % 12] = months[i];
  return other;
}

// Invented months on either side of the limits of [peel2007] (from memory).
TEST(KoeppenWords, EachKindAndItsMirror) {
  using catalogue::Climate;
  planting::ColdestNight frost;
  frost.likely_c = -5.0;
  planting::ColdestNight no_frost;
  no_frost.likely_c = 1.0;
  const climate::Months mild = {9, 10, 12, 15, 19, 23, 26, 26, 22, 18, 13, 10};
  const climate::Months cold = {-6, -5, 0, 7, 13, 16, 18, 17, 12, 7, 1, -3};
  const climate::Months dry_summer = {120, 110, 90, 60, 35, 15, 5, 10, 40, 90, 120, 130};
  climate::Months even{};
  even.fill(70.0);
  climate::Months little{};
  little.fill(25.0);
  const auto of = [&](const climate::Months& c, const climate::Months& mm, const planting::ColdestNight& night,
                      design::SaltSpray salt = design::SaltSpray::none) {
    const std::vector<Climate> north = climates_of(months_of(c, mm), 40.0, night, salt);
    EXPECT_EQ(north, climates_of(months_of(turned(c), turned(mm)), -40.0, night, salt));
    return north;
  };
  EXPECT_EQ(of(mild, dry_summer, frost), (std::vector<Climate>{Climate::summer_dry}));
  EXPECT_EQ(of(mild, even, frost), (std::vector<Climate>{Climate::temperate}));
  EXPECT_EQ(of(cold, even, frost), (std::vector<Climate>{Climate::cold}));
  EXPECT_EQ(of(mild, little, frost), (std::vector<Climate>{Climate::semi_arid}));
  EXPECT_EQ(of(mild, even, no_frost, design::SaltSpray::some),
            (std::vector<Climate>{Climate::temperate, Climate::frost_free, Climate::coast}));
}

}  // namespace
}  // namespace houseleek::studies
