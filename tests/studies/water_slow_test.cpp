// `houseleek water`: what moves today's store, and wrong wishes.
#include <gtest/gtest.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "base/issue_text.hpp"
#include "studies/store_today.hpp"
#include "studies/water.hpp"
#include "studies/week.hpp"
#include "support/catalogue_files.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {
namespace {

using logbook::Event;
using logbook::EventKind;
using logbook::EventRecord;
using report::WateringAnswer;

constexpr const char* on = "2026-07-15";

CivilMoment moment(const std::string& text) { return moment_from_text(text, "Europe/Athens", "at").value(); }

struct Logbook {
  std::vector<EventRecord> records;
  Event& add(EventKind kind, const std::string& at) {
    EventRecord record;
    record.number = static_cast<std::int64_t>(records.size()) + 1;
    record.event.kind = kind;
    record.event.at = moment(at);
    records.push_back(record);
    return records.back().event;
  }
  void make(const std::string& label, const std::string& at, const std::string& recipe) {
    Event& event = add(EventKind::made, at);
    event.module = label;
    event.recipe = recipe;
  }
};

constexpr const char* bag = R"(
[[container]]
name = "bag"
at = [3.6, 0.3]
length_mm = 600
width_mm = 400
medium = "light compost-perlite-coir mix"
fill_mm = 200
empty_kg = 1
plant_kg = 1
plant = { name = "strawberry" }
)";

const design::ValidDesign& house() {
  static const design::ValidDesign design = valid_design(small_design_text());
  return design;
}

std::string only_recipe() { return house()->recipes.front().name; }

struct Asked {
  const design::ValidDesign& design = house();
  const Logbook* log = nullptr;
  std::vector<logbook::LoggerColumn> loggers = {};
};

Result<WateringAnswer> ask(const Asked& asked, const studies::WaterRequest& request) {
  const Logbook empty;
  const std::optional<studies::NamedText> no_file;
  const studies::WaterSource source{.design = asked.design,
                                    .catalogue = shipped_catalogue(),
                                    .records = asked.log != nullptr ? asked.log->records : empty.records,
                                    .loggers = asked.loggers,
                                    .weather_file = no_file,
                                    .has_logbook = asked.log != nullptr};
  return studies::answer_watering(source, request, studies::run_in_turn, {});
}

studies::WaterRequest today() {
  studies::WaterRequest request;
  request.on = on;
  request.has_seasons = false;
  return request;
}

Logbook made_long_ago() {
  Logbook log;
  log.make("A1", "2025-03-01", only_recipe());
  log.make("A2", "2025-03-01", only_recipe());
  return log;
}

double store(const WateringAnswer& answer) { return *answer.stores.front().store_frac.value; }
double width(const results::Figure& figure) { return figure.range->high - figure.range->low; }

TEST(Water, WateringAndRainMoveTheStore) {
  Logbook dry = made_long_ago();
  dry.add(EventKind::rained, "2026-07-14").rain_mm = 0.0;
  Logbook watered = dry;
  Event& event = watered.add(EventKind::watered, "2026-07-14T07:00");
  event.water_l = 60.0;
  event.count = 2.0;
  event.recipe = only_recipe();
  Logbook rained = dry;
  rained.records[2].event.rain_mm = 30.0;
  const WateringAnswer a = ask({.log = &dry}, today()).value();
  const WateringAnswer b = ask({.log = &watered}, today()).value();
  const WateringAnswer c = ask({.log = &rained}, today()).value();
  EXPECT_LT(store(a), 0.3);
  EXPECT_GT(store(b), store(a) + 0.3);
  EXPECT_GT(store(c), store(a) + 0.2);
  EXPECT_EQ(a.stores.front().state, "wants_water");
  EXPECT_GT(*b.stores.front().can_wait_days.value, *a.stores.front().can_wait_days.value);
  EXPECT_EQ(a.stores.front().labels, (std::vector<std::string>{"A1", "A2"}));
  EXPECT_GT(*a.stores.front().litres_each.value, *b.stores.front().litres_each.value);
  EXPECT_GT(*a.round.cans.value, 0.0);
}

TEST(Water, AStudyHasTheSameStoresOfWhatWasWateredOfLate) {
  Logbook log = made_long_ago();
  const auto stores = [&log] {
    const std::vector<logbook::LoggerColumn> no_loggers;
    const std::optional<studies::NamedText> no_file;
    const catalogue::Catalogue catalogue = shipped_catalogue();
    const studies::StoreInputs inputs{.design = house(),
                                      .catalogue = catalogue,
                                      .records = log.records,
                                      .loggers = no_loggers,
                                      .weather_file = no_file,
                                      .has_logbook = true,
                                      .today = *day_from_text(on),
                                      .yesterday = {},
                                      .filled_day = std::nullopt};
    return studies::answer_store_today(inputs, studies::run_in_turn, {});
  };
  EXPECT_TRUE(stores().empty());  // nothing is known
  log.add(EventKind::rained, "2026-07-14").rain_mm = 5.0;
  const std::vector<report::StoreToday> gauged = stores();
  ASSERT_EQ(gauged.size(), 1U);
  EXPECT_EQ(*gauged.front().store_frac.value, store(ask({.log = &log}, today()).value()));
}

TEST(Water, WateredWithoutLitresIsUntilItDrips) {
  Logbook log = made_long_ago();
  log.add(EventKind::watered, "2026-07-15T07:00").recipe = only_recipe();
  const WateringAnswer answer = ask({.log = &log}, today()).value();
  EXPECT_GT(store(answer), 0.75);
}

TEST(Water, ATypedHotDayDriesMoreThanACoolOne) {
  studies::WaterRequest hot = today();
  hot.filled_on = "2026-07-12";
  hot.yesterday = {42.0, 30.0, 0.0};
  studies::WaterRequest cool = hot;
  cool.yesterday = {18.0, 14.0, 0.0};
  EXPECT_LT(store(ask({}, hot).value()), store(ask({}, cool).value()));
}

TEST(Water, AGaugeAndAWeighingNarrowTheRange) {
  Logbook log = made_long_ago();
  Event& event = log.add(EventKind::watered, "2026-07-06T07:00");
  event.water_l = 40.0;
  event.count = 2.0;
  event.recipe = only_recipe();
  const WateringAnswer before = ask({.log = &log}, today()).value();
  Logbook weighed = log;
  // As heavy as it would be with about half of its store.
  const results::Figure& held = before.stores.front().litres_each_when_due;
  ASSERT_TRUE(held.value.has_value());
  Event& scale = weighed.add(EventKind::weighed, "2026-07-14T07:00");
  scale.module = "A1";
  scale.mass_kg = 33.0;
  const WateringAnswer after = ask({.log = &weighed}, today()).value();
  ASSERT_FALSE(after.stores.front().notes.empty());
  SCOPED_TRACE(after.stores.front().notes.front());
  if (after.stores.front().notes.front().find("left out") == std::string::npos) {
    EXPECT_LT(width(after.stores.front().store_frac), width(before.stores.front().store_frac));
  }
}

TEST(Water, StrawberriesInABagWantItClearlyMoreOften) {
  const design::ValidDesign with_bag = valid_design(
      edited(small_design_text(), {{"rain_mm = [60, 60, 90, 90, 60,", "rain_mm = [2, 2, 2, 90, 60,"}}) + bag);
  studies::WaterRequest request = today();
  request.has_seasons = true;
  request.n_years = 2;
  const WateringAnswer answer = ask({.design = with_bag}, request).value();
  ASSERT_EQ(answer.seasons.size(), 2U);
  const results::Figure& module = answer.seasons[0].every_days[1];        // its summer
  const results::Figure& strawberries = answer.seasons[1].every_days[1];  // its summer
  ASSERT_TRUE(module.value && strawberries.value);
  EXPECT_LT(1.5 * *strawberries.value, *module.value);
  ASSERT_TRUE(answer.barrel.has_value());
  for (std::size_t i = 1; i < answer.barrel->sizes.size(); ++i) {
    EXPECT_GE(*answer.barrel->sizes[i].covered_frac.value, *answer.barrel->sizes[i - 1].covered_frac.value);
  }
}

TEST(Water, SaltOfTheWaterIsJudgedByTheEatenPlant) {
  const design::ValidDesign with_bag = valid_design(small_design_text() + bag);
  studies::WaterRequest request = today();
  request.water_ds_per_m = 2.0;
  const WateringAnswer fresh = ask({.design = with_bag}, today()).value();
  const WateringAnswer salty = ask({.design = with_bag}, request).value();
  const auto strawberry = [](const WateringAnswer& answer) {
    return *std::find_if(answer.salt.plants.begin(), answer.salt.plants.end(),
                         [](const report::SaltyPlant& one) { return one.where == "bag"; });
  };
  EXPECT_FALSE(strawberry(fresh).leaching_frac.value.has_value());
  // 2 / (5 1.25 - 2), by hand.
  EXPECT_NEAR(*strawberry(salty).leaching_frac.value, 0.4706, 0.0001);
  request.water_ds_per_m = 8.0;
  EXPECT_NE(strawberry(ask({.design = with_bag}, request).value()).statement.find("whatever you give"),
            std::string::npos);
}

TEST(Water, TheNeighbourComesBeforeAnythingIsDry) {
  studies::WaterRequest request = today();
  request.away_from = "2026-07-16";
  request.away_to = "2026-08-14";
  const WateringAnswer answer = ask({}, request).value();
  ASSERT_TRUE(answer.holiday.has_value());
  ASSERT_FALSE(answer.holiday->visits.empty());
  EXPECT_GT(answer.holiday->visits.front().day, request.away_from);
  EXPECT_LE(answer.holiday->visits.back().day, request.away_to);
}

TEST(Water, EveryWrongWishInOnePass) {
  studies::WaterRequest request = today();
  request.yesterday = {10.0, 20.0, -1.0};
  request.can_l = 0.0;
  request.filled_on = "2026-01-01";
  request.away_from = "2026-08-01";
  request.away_to = "2026-07-20";
  request.catchment_m2 = 0.0;
  request.water_ds_per_m = 99.0;
  request.rinse_material = "posidonia fibr";
  request.rinse_first_ms_per_cm = 1.0;
  request.rinse_target_ms_per_cm = 0.4;
  const Result<WateringAnswer> refused = ask({}, request);
  ASSERT_FALSE(refused);
  std::vector<std::string> paths;
  for (const Issue& issue : refused.error()) {
    paths.push_back(issue.path);
    EXPECT_FALSE(issue.message.empty());
  }
  EXPECT_EQ(paths, (std::vector<std::string>{"rain", "max", "can", "catchment", "salt", "filled", "away_to", "rinse",
                                             "rinse_to"}));
  EXPECT_NE(text_from_issues(refused.error(), "").find("did you mean \"posidonia fibre\"?"), std::string::npos);
}

report::WeekAnswer week(const Logbook* log, const std::vector<studies::WorkDue>& more = {},
                        std::optional<double> gust_km_per_h = std::nullopt) {
  const Logbook empty;
  const std::optional<studies::NamedText> no_file;
  const std::vector<logbook::LoggerColumn> no_loggers;
  const studies::WaterSource source{.design = house(),
                                    .catalogue = shipped_catalogue(),
                                    .records = log != nullptr ? log->records : empty.records,
                                    .loggers = no_loggers,
                                    .weather_file = no_file,
                                    .has_logbook = log != nullptr};
  studies::WeekRequest request;
  request.on = on;
  request.file = "my roof.houseleek";
  request.more = more;
  request.gust_km_per_h = gust_km_per_h;
  return studies::answer_week(source, request, studies::run_in_turn, {}).value();
}

const report::WeekItem* item_of(const report::WeekAnswer& answer, const std::string& id) {
  for (const report::WeekItem& item : answer.items) {
    if (item.id.starts_with(id)) return &item;
  }
  return nullptr;
}

TEST(Week, WhatIsDoneIsGoneFromTheList) {
  Logbook log = made_long_ago();
  log.add(EventKind::rained, "2026-07-14").rain_mm = 0.0;
  const report::WeekAnswer before = week(&log);
  const report::WeekItem* water = item_of(before, "water");
  ASSERT_NE(water, nullptr);
  EXPECT_EQ(water->urgency, 0);
  EXPECT_NE(water->log_command.find("houseleek log 'my roof.houseleek' watered --recipe"), std::string::npos);
  EXPECT_NE(item_of(before, "look ceiling"), nullptr);
  Event& watered = log.add(EventKind::watered, "2026-07-15T07:00");
  watered.recipe = only_recipe();
  Event& ceiling = log.add(EventKind::looked_at, "2026-07-15T08:00");
  ceiling.room = house()->rooms.front().name;
  ceiling.condition = "good";
  const report::WeekAnswer after = week(&log);
  const report::WeekItem* later = item_of(after, "water");
  EXPECT_TRUE(later == nullptr || later->urgency > 0);
  EXPECT_EQ(item_of(after, "look ceiling"), nullptr);
  // The most urgent stands first.
  EXPECT_TRUE(std::is_sorted(before.items.begin(), before.items.end(),
                             [](const auto& a, const auto& b) { return a.urgency < b.urgency; }));
}

TEST(Week, StormsBeforeAndAfter) {
  Logbook log = made_long_ago();
  log.add(EventKind::storm, "2026-07-10").gust_km_per_h = 90.0;
  const report::WeekAnswer answer = week(&log, {}, 80.0);
  const report::WeekItem* before = item_of(answer, "before storm");
  const report::WeekItem* after = item_of(answer, "after storm");
  ASSERT_NE(before, nullptr);
  ASSERT_NE(after, nullptr);
  EXPECT_FALSE(before->caution.empty());
  EXPECT_FALSE(after->caution.empty());
  Event& look = log.add(EventKind::looked_at, "2026-07-11");
  look.condition = "good";
  EXPECT_EQ(item_of(week(&log), "after storm"), nullptr);
}

TEST(Week, OtherWorkIsJoined) {
  const Logbook log = made_long_ago();
  studies::WorkDue due;
  due.day = *day_from_text("2026-07-17");
  due.what = "Pot on 40 of the holm oaks.";
  due.where = "holm oaks";
  due.why = "Roots have met the pot's wall.";
  due.figure = results::figure_without_range(40.0, "counted");
  due.unit = "plants";
  due.log_command = "potted_on --batch \"holm oaks\" --count 40";
  studies::WorkDue later = due;
  later.day += 30;
  later.what = "Later.";
  const report::WeekAnswer answer = week(&log, {due, later});
  const report::WeekItem* item = item_of(answer, "pot_on holm oaks");
  ASSERT_NE(item, nullptr);
  EXPECT_EQ(item->due, "2026-07-17");
  EXPECT_NE(item->log_command.find("potted_on --batch"), std::string::npos);
  EXPECT_EQ(item_of(answer, "pot_on holm oaks Later"), nullptr);
}

TEST(Week, ADescriptionSaysWhatIsMissing) {
  const report::WeekAnswer answer = week(nullptr);
  EXPECT_FALSE(answer.has_logbook);
  EXPECT_NE(item_of(answer, "look round"), nullptr);
  EXPECT_TRUE(std::any_of(answer.missing.begin(), answer.missing.end(),
                          [](const std::string& one) { return one.starts_with("a logbook"); }));
}

}  // namespace
}  // namespace houseleek::tests
