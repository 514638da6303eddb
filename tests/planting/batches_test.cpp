// Batches from small logbooks by hand, what is due, and plans backwards from a planting date by hand.
#include "planting/batches.hpp"

#include <gtest/gtest.h>

#include "base/civil_time.hpp"
#include "base/contract.hpp"
#include "logbook/read_event.hpp"
#include "planting/raise_plan.hpp"
#include "support/catalogue_files.hpp"
#include "support/reference_check.hpp"

namespace houseleek::planting {
namespace {

using logbook::EventRecord;
using tests::check_reference;
using Fields = std::vector<std::pair<std::string, std::string>>;

/// A logbook as a person notes it; events are read through the one door.
struct Logbook {
  std::vector<EventRecord> records;
  void note(const std::string& kind, const std::string& day, const Fields& more) {
    Fields fields = more;
    fields.emplace_back("at", day);
    const Result<logbook::Event> event =
        logbook::read_event({kind, fields}, {"Europe/Athens", std::int64_t{2'000'000'000}, "EUR"});
    ASSERT_TRUE(event.has_value()) << event.error().front().message;
    EventRecord record;
    record.number = static_cast<std::int64_t>(records.size()) + 1;
    record.event = event.value();
    records.push_back(record);
  }
  void batch(const std::string& kind, const std::string& day, const std::string& name, int count) {
    note(kind, day, {{"batch", name}, {"count", std::to_string(count)}});
  }
};

const catalogue::Catalogue& all() {
  static const catalogue::Catalogue shipped = tests::shipped_catalogue();
  return shipped;
}

std::int64_t day(const std::string& text) { return *day_from_text(text); }

TEST(Batches, CuttingsFromStrikingToPlantingOut) {
  Logbook log;
  const std::string name = "white stonecrop cuttings, spring 2024";
  log.batch("sown", "2024-03-05", name, 140);
  log.batch("lost", "2024-04-02", name, 21);
  log.batch("ready", "2024-04-20", name, 110);
  log.batch("planted_out", "2024-04-27", name, 96);
  log.batch("given_away", "2024-05-03", name, 10);
  const BatchRecords found = find_batches(log.records, all());
  ASSERT_EQ(found.batches.size(), 1U);
  EXPECT_TRUE(found.left_out.empty());
  const Batch& batch = found.batches.front();
  EXPECT_EQ(batch.plant, "Sedum album");
  ASSERT_NE(batch.raising, nullptr);
  EXPECT_EQ(batch.raising->way, catalogue::RaisedFrom::cuttings);
  EXPECT_EQ(batch.sown.day, day("2024-03-05"));
  EXPECT_EQ(batch.ready->count, 110.0);
  EXPECT_EQ(batch.n_standing, 4.0);  // 110 - 96 - 10
  const OwnRate losses = *raising_losses(batch);
  EXPECT_EQ(losses.n_events, 30.0);
  EXPECT_FALSE(losses.is_too_few);
  check_reference({.id = "BAT-01",
                   .what = "low end of the share lost, 30 of 140, 90 %",
                   .source = "recomputed with SciPy 1.10.1, stats.binomtest(30, 140).proportion_ci(0.9, 'exact')",
                   .expected = 0.158663,
                   .got = losses.low,
                   .tolerance = 1e-6,
                   .reason = "digits printed",
                   .function = "planting::own_rate"});
  check_reference({.id = "BAT-02",
                   .what = "high end of the share lost, 30 of 140, 90 %",
                   .source = "recomputed with SciPy 1.10.1, stats.binomtest(30, 140).proportion_ci(0.9, 'exact')",
                   .expected = 0.279231,
                   .got = losses.high,
                   .tolerance = 1e-6,
                   .reason = "digits printed",
                   .function = "planting::own_rate"});
}

TEST(Batches, SeedFromSowingOn) {
  Logbook log;
  const std::string name = "carthusian pinks from seed";
  log.batch("sown", "2025-03-02", name, 150);
  log.batch("germinated", "2025-03-19", name, 60);
  log.batch("germinated", "2025-03-29", name, 28);  // more came up
  log.batch("potted_on", "2025-04-27", name, 75);
  log.batch("lost", "2025-07-15", name, 19);
  const Batch batch = find_batches(log.records, all()).batches.front();
  EXPECT_EQ(batch.plant, "Dianthus carthusianorum");
  EXPECT_EQ(batch.germinated->count, 88.0);
  EXPECT_EQ(batch.germinated->day, day("2025-03-19"));
  EXPECT_EQ(batch.n_standing, 56.0);
  EXPECT_FALSE(raising_losses(batch).has_value());  // not ready
}

TEST(Batches, WhatContradictsItselfIsLeftOutAndSaid) {
  Logbook log;
  log.batch("ready", "2025-03-01", "nobody's", 5);
  log.batch("sown", "2025-03-02", "thyme tray", 20);
  log.batch("germinated", "2025-03-20", "thyme tray", 21);
  log.batch("planted_out", "2025-04-20", "Thyme  Tray", 30);
  log.batch("planted_out", "2025-04-20", "thyme tray", 5);
  const BatchRecords found = find_batches(log.records, all());
  ASSERT_EQ(found.left_out.size(), 3U);
  EXPECT_EQ(found.left_out[0].number, 1);
  EXPECT_EQ(found.left_out[0].why, "batch \"nobody's\" was never sown, struck or taken on");
  EXPECT_EQ(found.left_out[1].why, "21 of batch \"thyme tray\" are more than the 20 that there were");
  EXPECT_EQ(found.left_out[2].number, 4);
  EXPECT_EQ(found.left_out[2].why, "30 of batch \"thyme tray\" are more than the 20 that stood there");
  EXPECT_EQ(found.batches.front().n_standing, 15.0);
  EXPECT_TRUE(found.batches.front().plant.empty());  // three kinds of thyme
}

TEST(Batches, TheItemNamesThePlant) {
  Logbook log;
  log.note("sown", "2025-03-02",
           {{"batch", "tray 7"}, {"count", "20"}, {"item", "garden thyme"}, {"container", "tray of 40"}});
  const Batch batch = find_batches(log.records, all()).batches.front();
  EXPECT_EQ(batch.plant, "Thymus vulgaris");
  EXPECT_EQ(batch.container, "tray of 40");
  EXPECT_EQ(batch.raising, nullptr);  // seed or cuttings: not told
}

TEST(Batches, WhatIsDue) {
  Logbook log;
  log.batch("sown", "2026-03-01", "basil from seed", 30);
  log.batch("sown", "2025-11-08", "holm oaks from acorns", 120);
  log.batch("germinated", "2026-02-21", "holm oaks from acorns", 47);
  log.batch("sown", "2026-01-10", "white stonecrop cuttings", 50);
  log.batch("ready", "2026-02-20", "white stonecrop cuttings", 45);
  log.batch("sown", "2025-01-01", "all gone from seed, basil", 9);
  log.batch("lost", "2025-02-01", "all gone from seed, basil", 9);
  const BatchRecords found = find_batches(log.records, all());
  const std::vector<Due> due = due_of_batches(found.batches, all(), day("2026-03-05"));
  ASSERT_EQ(due.size(), 4U);
  // Ready on 20 February, and 14 days.
  EXPECT_EQ(due[0].batch, "white stonecrop cuttings");
  EXPECT_EQ(text_from_day(due[0].day), "2026-03-06");
  EXPECT_EQ(due[0].what, "plant out or give away 45");
  EXPECT_EQ(due[0].event, logbook::EventKind::planted_out);
  EXPECT_EQ(due[0].n_standing, 45.0);
  // Vegetables from seed are up after 8 days.
  EXPECT_EQ(due[1].batch, "basil from seed");
  EXPECT_EQ(text_from_day(due[1].day), "2026-03-09");
  EXPECT_EQ(due[1].what, "count what is up");
  EXPECT_EQ(due[1].event, logbook::EventKind::germinated);
  // Trees are potted on after 150 days.
  EXPECT_EQ(text_from_day(due[2].day), "2026-04-07");
  EXPECT_EQ(due[2].what, "pot on 47");
  EXPECT_EQ(due[2].event, logbook::EventKind::potted_on);
  // And leave after 4 years of 365.25 days.
  EXPECT_EQ(text_from_day(due[3].day), "2029-11-08");
  EXPECT_EQ(due[3].what, "off the roof, into the ground");
  EXPECT_NE(due[3].why.find("roots"), std::string::npos);
  EXPECT_NE(due[3].why.find("sail"), std::string::npos);
  // Nothing up after 15 days: sow again.
  const std::vector<Due> later = due_of_batches(found.batches, all(), day("2026-03-17"));
  EXPECT_EQ(later[1].what, "nothing is up: sow again");
  EXPECT_EQ(text_from_day(later[1].day), "2026-03-16");
}

TEST(Batches, TooFewLossesSayNothing) {
  EXPECT_TRUE(own_rate(4.0, 200.0).is_too_few);
  EXPECT_FALSE(own_rate(5.0, 200.0).is_too_few);
  EXPECT_THROW((void)own_rate(3.0, 2.0), ContractViolation);
  EXPECT_THROW((void)own_rate(0.0, 0.0), ContractViolation);
}

TEST(Batches, LossesOnTheRoof) {
  Logbook log;
  log.batch("sown", "2024-03-05", "white stonecrop cuttings", 80);
  log.batch("planted_out", "2024-04-27", "white stonecrop cuttings", 64);
  log.note("died", "2024-08-20", {{"item", "white stonecrop"}, {"count", "8"}});
  log.note("died", "2024-08-20", {{"item", "Sedum acre"}, {"count", "3"}});
  const BatchRecords found = find_batches(log.records, all());
  const OwnRate rate = *losses_on_roof(log.records, found.batches, all(), "Sedum album");
  EXPECT_EQ(rate.n_events, 8.0);
  EXPECT_EQ(rate.n_all, 64.0);
  check_reference({.id = "BAT-03",
                   .what = "high end of the share that died, 8 of 64, 90 %",
                   .source = "recomputed with SciPy 1.10.1, stats.binomtest(8, 64).proportion_ci(0.9, 'exact')",
                   .expected = 0.214256,
                   .got = rate.high,
                   .tolerance = 1e-6,
                   .reason = "digits printed",
                   .function = "planting::losses_on_roof"});
  // None was logged as planted out: no share.
  EXPECT_FALSE(losses_on_roof(log.records, found.batches, all(), "Sedum acre").has_value());
}

TEST(Batches, ThrownTogetherTheRangeHoldsEveryBatch) {
  Logbook log;
  log.batch("sown", "2024-03-05", "white stonecrop cuttings A", 100);
  log.batch("ready", "2024-04-20", "white stonecrop cuttings A", 95);
  log.batch("sown", "2024-09-05", "white stonecrop cuttings B", 100);
  log.batch("ready", "2024-10-20", "white stonecrop cuttings B", 50);
  const BatchRecords found = find_batches(log.records, all());
  const PooledLosses pooled = *pooled_losses(found.batches, "Sedum album", catalogue::RaisedFrom::cuttings);
  EXPECT_EQ(pooled.n_batches, 2);
  EXPECT_DOUBLE_EQ(pooled.rate.share, 0.275);
  EXPECT_LE(pooled.rate.low, 0.05);
  EXPECT_GE(pooled.rate.high, 0.5);
  EXPECT_FALSE(pooled_losses(found.batches, "Sedum album", catalogue::RaisedFrom::seed).has_value());
}

// 64 thymes for 1 October: 60 % come up (30 to 85), 80 % of those are kept (60 to 95); 110 days (80 to 200).
TEST(RaisePlan, ByHand) {
  const catalogue::Raising* raising = catalogue::find_raising(all().raising, catalogue::RaisedFrom::seed, "herb");
  ASSERT_NE(raising, nullptr);
  RaiseQuestion question;
  question.n_plants = 60.0;
  question.by_day = day("2027-10-01");
  question.raising = raising;
  const RaisePlan plan = plan_raising(question);
  const auto check = [](const char* id, const char* what, double expected, double got, const char* by_hand) {
    check_reference({.id = id,
                     .what = what,
                     .source = std::string("recomputed by hand: ") + by_hand,
                     .expected = expected,
                     .got = got,
                     .tolerance = 0,
                     .reason = "whole seeds",
                     .function = "planting::plan_raising"});
  };
  check("RSE-01", "seeds for 60 thymes", 125, plan.to_begin, "60 / (0.6 x 0.8) = 125");
  check("RSE-02", "seeds if most live", 75, plan.to_begin_low, "60 / (0.85 x 0.95) = 74.3");
  check("RSE-03", "seeds if few live", 334, plan.to_begin_high, "60 / (0.3 x 0.6) = 333.3");
  check("RSE-04", "seedlings to expect", 75, plan.to_expect, "125 x 0.6");
  EXPECT_EQ(text_from_day(plan.begin_day), "2027-06-13");       // 110 days before
  EXPECT_EQ(text_from_day(plan.begin_earliest), "2027-03-15");  // 200
  EXPECT_EQ(text_from_day(plan.begin_latest), "2027-07-13");    // 80
  EXPECT_EQ(text_from_day(plan.taken_day), "2027-06-27");       // 14 days after sowing
  EXPECT_EQ(text_from_day(*plan.potted_on_day), "2027-07-28");  // 45
  question.own_share = Share{0.25, 0.5, 0.6, "own"};
  const RaisePlan own = plan_raising(question);
  check("RSE-05", "seeds by own losses", 120, own.to_begin, "60 / 0.5");
  check("RSE-06", "seeds by own losses, few live", 240, own.to_begin_high, "60 / 0.25");
  EXPECT_THROW((void)plan_raising({}), ContractViolation);
}

TEST(RaisePlan, EveryPlantOfTheCatalogueCanBeRaised) {
  for (const catalogue::Plant& plant : all().plants) {
    ASSERT_FALSE(plant.raised_from.empty()) << plant.name;
    for (const catalogue::RaisedFrom way : plant.raised_from) {
      const catalogue::Raising* raising = catalogue::find_raising(all().raising, way, plant.group);
      ASSERT_NE(raising, nullptr) << plant.name;
      const RaisePlan plan = plan_raising({.n_plants = 10.0, .by_day = 20000, .raising = raising, .own_share = {}});
      EXPECT_GE(plan.to_begin, 10.0);
      EXPECT_LE(plan.to_begin_low, plan.to_begin);
      EXPECT_LE(plan.begin_earliest, plan.begin_day);
    }
  }
}

}  // namespace
}  // namespace houseleek::planting
