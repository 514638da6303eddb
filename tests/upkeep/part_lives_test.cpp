// From logged events to lives, storms and looks, by hand on small logbooks.
#include "upkeep/part_lives.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/civil_time.hpp"
#include "logbook/read_event.hpp"
#include "upkeep/looks.hpp"
#include "upkeep/rounds.hpp"
#include "upkeep/storms.hpp"

namespace houseleek::upkeep {
namespace {

using logbook::EventRecord;
using Fields = std::vector<std::pair<std::string, std::string>>;

constexpr double year_days = 365.25;
const std::vector<RecipePart> recipe_parts = {{"thin", "cover sheet", "jute"}, {"thin", "tie", ""}};

/// A logbook as a person notes it; events are read through the one door.
struct Logbook {
  std::vector<EventRecord> records;
  EventRecord& note(const std::string& kind, const Fields& fields) {
    const Result<logbook::Event> event =
        logbook::read_event({kind, fields}, {"Europe/Athens", std::int64_t{2'000'000'000}, "EUR"});
    EXPECT_TRUE(event.has_value()) << (event ? "" : event.error().front().message);
    EventRecord record;
    record.number = static_cast<std::int64_t>(records.size()) + 1;
    record.event = event.value();
    records.push_back(record);
    return records.back();
  }
  [[nodiscard]] PartRecords parts() const { return find_part_records(records, recipe_parts); }
};

std::int64_t noon(const std::string& day) { return moment_from_text(day, "Europe/Athens", "day").value().utc_s; }

const PartRecord* find(const PartRecords& found, const std::string& part, bool is_still_there) {
  for (const PartRecord& one : found.parts) {
    if (one.part == part && is_in_use(one) == is_still_there) return &one;
  }
  return nullptr;
}

TEST(PartLives, FoundTornBetweenTwoLooksIsAnInterval) {
  Logbook log;
  log.note("made", {{"module", "A1"}, {"recipe", "thin"}, {"at", "2024-03-01"}});
  log.note("looked_at", {{"module", "A1"}, {"condition", "good"}, {"at", "2024-09-01"}});
  log.note("looked_at", {{"module", "A1"}, {"part", "cover"}, {"condition", "torn"}, {"at", "2025-03-01"}});
  const PartRecords found = log.parts();
  const PartRecord* cover = find(found, "cover sheet", false);
  ASSERT_NE(cover, nullptr);
  const stats::PartLife life = life_of(*cover);
  EXPECT_NEAR(life.alive_at_years, 184.0 / year_days, 0.001);   // 1 March to 1 September
  EXPECT_NEAR(life.failed_by_years, 365.0 / year_days, 0.001);  // to 1 March
  // The ties were seen good in September and are in use, as far as anybody knows.
  const PartRecord* tie = find(found, "tie", true);
  ASSERT_NE(tie, nullptr);
  EXPECT_TRUE(std::isinf(life_of(*tie).failed_by_years));
  EXPECT_NEAR(life_of(*tie).alive_at_years, 184.0 / year_days, 0.001);
  EXPECT_EQ(found.n_modules, 1.0);
  EXPECT_TRUE(found.left_out.empty());
}

TEST(PartLives, ReplacedPiecesAreCountedTheOldestFirst) {
  Logbook log;
  log.note("made", {{"module", "A1"}, {"recipe", "thin"}, {"at", "2024-03-01"}});
  log.note("made",
           {{"module", "A1"}, {"part", "ties"}, {"item", "jute string"}, {"count", "12"}, {"at", "2024-03-01"}});
  log.note("replaced",
           {{"module", "A1"}, {"part", "tie"}, {"count", "3"}, {"condition", "torn"}, {"at", "2024-09-01"}});
  log.note("replaced",
           {{"module", "A1"}, {"part", "tie"}, {"count", "10"}, {"condition", "worn"}, {"at", "2025-03-01"}});
  const PartRecords found = log.parts();
  double n_failed = 0.0;
  double n_in_use = 0.0;
  double n_first_half_year = 0.0;
  for (const PartRecord& one : found.parts) {
    if (one.part != "tie") continue;
    EXPECT_EQ(one.material, "jute string");
    (is_in_use(one) ? n_in_use : n_failed) += one.n_parts;
    if (!is_in_use(one) && life_of(one).failed_by_years < 184.5 / year_days) n_first_half_year += one.n_parts;
  }
  EXPECT_EQ(n_in_use, 12.0);
  EXPECT_EQ(n_failed, 13.0);
  EXPECT_EQ(n_first_half_year, 3.0 + 1.0);  // the nine old ones first, then one of the three put in in September
}

TEST(PartLives, TakenOutInGoodOrderIsNoFailure) {
  Logbook log;
  log.note("made", {{"module", "A1"}, {"recipe", "thin"}, {"at", "2024-03-01"}});
  log.note("replaced", {{"module", "A1"}, {"part", "cover sheet"}, {"condition", "good"}, {"at", "2025-03-01"}});
  const PartRecords found = log.parts();
  const PartRecord* cover = find(found, "cover sheet", false);
  ASSERT_NE(cover, nullptr);
  EXPECT_TRUE(std::isinf(life_of(*cover).failed_by_years));
  EXPECT_NEAR(life_of(*cover).alive_at_years, 365.0 / year_days, 0.001);
  EXPECT_NE(find(found, "cover sheet", true), nullptr);
}

TEST(PartLives, WhatWasCorrectedOrWithdrawnIsNoLongerThere) {
  Logbook log;
  log.note("made", {{"module", "A1"}, {"recipe", "thin"}, {"at", "2024-03-01"}});
  log.note("replaced", {{"module", "A1"}, {"part", "cover"}, {"condition", "torn"}, {"at", "2025-03-01"}})
      .superseded_by = 3;
  log.note("withdrawn", {{"at", "2025-03-01"}}).supersedes = 2;
  EXPECT_EQ(find(log.parts(), "cover sheet", false), nullptr);
  EXPECT_EQ(log.parts().n_events, 1U);
}

TEST(PartLives, OfSeveralSeenTornOneAtLeastHasFailed) {
  Logbook log;
  log.note("made", {{"module", "A1"}, {"part", "tie"}, {"count", "12"}, {"item", "wire"}, {"at", "2024-03-01"}});
  log.note("looked_at", {{"module", "A1"}, {"part", "tie"}, {"condition", "torn"}, {"at", "2024-09-01"}});
  const PartRecords seen = log.parts();
  ASSERT_NE(find(seen, "tie", false), nullptr);
  EXPECT_EQ(find(seen, "tie", false)->n_parts, 1.0);
  EXPECT_EQ(find(seen, "tie", true)->n_parts, 11.0);
  // Replaced later: all of them had failed by the look.
  log.note("replaced",
           {{"module", "A1"}, {"part", "tie"}, {"count", "4"}, {"condition", "torn"}, {"at", "2024-10-01"}});
  const PartRecords replaced = log.parts();
  EXPECT_EQ(find(replaced, "tie", false)->n_parts, 4.0);
  EXPECT_NEAR(life_of(*find(replaced, "tie", false)).failed_by_years, 184.0 / year_days, 0.001);
}

TEST(PartLives, WhatNothingCanBeMadeOfIsListedWithWhy) {
  Logbook log;
  log.note("looked_at", {{"module", "A1"}, {"condition", "torn"}, {"at", "2024-03-01"}});
  log.note("replaced", {{"part", "tie"}, {"at", "2024-03-01"}});
  log.note("replaced", {{"part", "tie"}, {"module", "Z9"}, {"at", "2024-03-01"}});
  const PartRecords found = log.parts();
  ASSERT_EQ(found.left_out.size(), 3U);
  EXPECT_NE(found.left_out[0].why.find("--part"), std::string::npos);
  EXPECT_NE(found.left_out[1].why.find("--module"), std::string::npos);
  EXPECT_EQ(found.left_out[2].number, 3);
}

TEST(Storms, WhatIsFoundWithinFourteenDaysStandsBeside) {
  Logbook log;
  log.note("made", {{"module", "A1"}, {"recipe", "thin"}, {"at", "2024-03-01"}});
  log.note("made", {{"module", "A2"}, {"recipe", "thin"}, {"at", "2024-03-01"}});
  log.note("storm", {{"gust_km_per_h", "85"}, {"at", "2024-11-10"}});
  log.note("replaced", {{"module", "A1"}, {"part", "cover"}, {"condition", "torn"}, {"at", "2024-11-24"}});
  log.note("replaced", {{"module", "A2"}, {"part", "cover"}, {"condition", "torn"}, {"at", "2024-11-25"}});
  const StormsAnswer storms = find_storms(log.records, log.parts(), noon("2025-03-01"));
  ASSERT_EQ(storms.storms.size(), 1U);
  ASSERT_EQ(storms.storms.front().failed.size(), 1U);
  EXPECT_EQ(storms.storms.front().failed.front().n_parts, 1.0);
  EXPECT_EQ(storms.n_failures, 2.0);
  EXPECT_EQ(storms.n_after_storms, 1.0);
  EXPECT_NEAR(storms.days_after_storms_frac, 15.0 / 366.0, 1e-9);  // 1 March to 1 March, both counted
  EXPECT_FALSE(storms.latest_within_days.has_value());
  EXPECT_EQ(find_storms(log.records, log.parts(), noon("2024-11-24")).latest_within_days, "2024-11-10");
}

TEST(Looks, TheNextOneIsCountedFromTheLast) {
  Logbook log;
  log.note("looked_at", {{"module", "A1"}, {"part", "ties"}, {"condition", "good"}, {"at", "2024-03-01"}});
  log.note("looked_at", {{"item", "outlets"}, {"condition", "good"}, {"at", "2024-03-05"}});
  const std::int64_t today = *day_from_text("2024-04-10");
  for (const LookDue& look : looks_due(log.records, today)) {
    if (look.what == "ties") {
      EXPECT_EQ(text_from_day(look.due_day), "2024-05-30");  // 90 days after 1 March
      EXPECT_FALSE(look.is_due);
    } else if (look.what == "outlets and gratings") {
      EXPECT_EQ(text_from_day(look.due_day), "2024-04-04");
      EXPECT_TRUE(look.is_due);
    } else {
      EXPECT_FALSE(look.last_day.has_value()) << look.what;
      EXPECT_TRUE(look.is_due) << look.what;
    }
  }
}

TEST(Rounds, StepsAndCautionsFollowTheRoof) {
  RoundFacts facts;
  facts.soaked_kg = 12.0;
  facts.dry_kg = 8.0;
  const auto holds = [](const std::vector<Step>& steps, const std::string& text) {
    for (const Step& step : steps) {
      if (step.text.find(text) != std::string::npos || step.caution.find(text) != std::string::npos) return true;
    }
    return false;
  };
  EXPECT_FALSE(holds(steps_before_storm(facts), "raised modules down"));
  EXPECT_TRUE(holds(steps_before_storm(facts), "No parapet is known"));
  EXPECT_FALSE(holds(steps_for_taking_off(facts).order, "with two"));
  EXPECT_FALSE(holds(steps_for_taking_off(facts).disposal, "Fleshy offcuts"));
  facts.has_raised = true;
  facts.soaked_kg = 171.0;
  facts.parapet_height_mm = 200.0;
  facts.succulents = {"Sedum album"};
  EXPECT_TRUE(holds(steps_before_storm(facts), "raised modules down"));
  EXPECT_TRUE(holds(steps_before_storm(facts), "200 mm high and holds nobody"));
  EXPECT_TRUE(holds(steps_for_taking_off(facts).order, "171 kg soaked: nobody lifts that"));
  EXPECT_TRUE(holds(steps_for_taking_off(facts).disposal, "Fleshy offcuts (Sedum album)"));
}

}  // namespace
}  // namespace houseleek::upkeep
