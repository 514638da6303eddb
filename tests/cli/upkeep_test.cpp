// Events by the table, and what `houseleek upkeep` makes of them, as a person meets them.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {
namespace {

std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

struct Household {
  const TemporaryFolder folder;
  Household() {
    (void)folder.write("roof.toml", small_design_text());
    EXPECT_EQ(houseleek({"import", "roof.toml", "--to", "a.houseleek"}).exit_code, 0);
  }
  [[nodiscard]] ProgramRun houseleek(const std::vector<std::string>& arguments) const {
    return run_program(arguments, folder.path());
  }
  [[nodiscard]] ProgramRun import_events(const std::string& csv) const {
    (void)folder.write("events.csv", csv);
    return houseleek({"import", "events.csv", "--to", "a.houseleek", "--events"});
  }
  [[nodiscard]] nlohmann::json upkeep(const std::string& on) const {
    const ProgramRun run = houseleek({"upkeep", "a.houseleek", "--on", on, "--json"});
    EXPECT_EQ(run.exit_code, 0) << run.err;
    return nlohmann::json::parse(run.out);
  }
};

nlohmann::json part_of(const nlohmann::json& answer, const std::string& part) {
  for (const nlohmann::json& one : answer.at("parts")) {
    if (one.at("part") == part) return one;
  }
  ADD_FAILURE() << "no part " << part;
  return {};
}

/// Twenty modules with a set of ties each; so many of them are torn after a year.
std::string ties_torn(int n_torn) {
  std::string csv = "kind,at,module,recipe,part,item,count,condition\n";
  for (int i = 1; i <= 20; ++i) {
    csv += "made,2024-03-01,M" + std::to_string(i) + ",thin stonecrop,,,,\n";
  }
  for (int i = 1; i <= 20; ++i) csv += "looked_at,2024-12-01,M" + std::to_string(i) + ",,,,,good\n";
  for (int i = 1; i <= n_torn; ++i) csv += "replaced,2025-03-01,M" + std::to_string(i) + ",,tie,,,torn\n";
  return csv;
}

TEST(EventTable, ComesInOnceAndGoesOutAgain) {
  const Household house;
  EXPECT_EQ(house
                .import_events("\xEF\xBB\xBFkind,at,module,water_l,note\r\nwatered,2026-07-03T08:15,A1,6,\"a, b\"\r\n"
                               "looked_at,2026-07-04,,,dry\r\n")
                .out,
            "a.houseleek: 2 events from 2 rows; 0 were there already\n");
  EXPECT_EQ(house.houseleek({"import", "events.csv", "--to", "a.houseleek", "--events"}).out,
            "a.houseleek: 0 events from 2 rows; 2 were there already\n");
  EXPECT_EQ(house.houseleek({"log", "a.houseleek"}).out,
            "    1: watered 2026-07-03T08:15+02:00, module A1, note a, b, water 6 l\n"
            "    2: looked_at 2026-07-04, note dry\n2 events\n");
  // What was corrected or withdrawn stays behind when events move to another project.
  EXPECT_EQ(house.houseleek({"log", "a.houseleek", "watered", "--corrects", "1", "--water-l", "7"}).exit_code, 0);
  EXPECT_EQ(house.houseleek({"log", "a.houseleek", "withdrawn", "--corrects", "2"}).exit_code, 0);
  EXPECT_EQ(house.houseleek({"export", "a.houseleek", "--tables", "out"}).exit_code, 0);
  EXPECT_EQ(house.houseleek({"import", "roof.toml", "--to", "b.houseleek"}).exit_code, 0);
  EXPECT_EQ(house.houseleek({"import", "out/events.csv", "--to", "b.houseleek", "--events"}).out,
            "b.houseleek: 1 events from 4 rows; 0 were there already, 3 had been corrected or withdrawn\n");
  EXPECT_EQ(house.houseleek({"log", "b.houseleek"}).out,
            "    1: watered 2026-07-03T08:15+02:00, module A1, note a, b, water 7 l\n1 event\n");
}

TEST(EventTable, EveryProblemHasItsPlaceAndNothingIsWritten) {
  const Household house;
  const std::string before = file_text(house.folder.path() + "/a.houseleek");
  const ProgramRun run = house.import_events(
      "kind,at,module,water_l,recipe\nwatered,2026-07-03,A1,six,\nwaterd,2026-07-03,A1,6,\n"
      "watered,2026-07-03,A1,6,thin stonecrap\nwatered,2026-07-03,A1\nwatered,2026-07-04,A2,5,\n");
  EXPECT_EQ(run.exit_code, 1);
  EXPECT_NE(run.err.find("events.csv:2:23: error: water_l is \"six\""), std::string::npos) << run.err;
  EXPECT_NE(run.err.find("events.csv:3:1: error: kind \"waterd\" is not known"), std::string::npos) << run.err;
  EXPECT_NE(run.err.find("events.csv:4:25: error: no recipe of the design is called"), std::string::npos) << run.err;
  EXPECT_NE(run.err.find("events.csv:5:1: error: this row has 3 fields"), std::string::npos) << run.err;
  EXPECT_EQ(file_text(house.folder.path() + "/a.houseleek"), before);
  const ProgramRun column = house.import_events("kind,at,modul\nwatered,2026-07-03,A1\n");
  EXPECT_EQ(column.exit_code, 1);
  EXPECT_NE(column.err.find("did you mean \"module\"?"), std::string::npos) << column.err;
  EXPECT_EQ(house.import_events("").exit_code, 1);
  EXPECT_EQ(file_text(house.folder.path() + "/a.houseleek"), before);
}

TEST(Upkeep, UnderFiveFailuresTooFewToSayFromFiveOnALife) {
  const Household four;
  ASSERT_EQ(four.import_events(ties_torn(4)).exit_code, 0);
  const nlohmann::json few = part_of(four.upkeep("2025-03-02"), "tie");
  EXPECT_TRUE(few.at("is_too_few"));
  EXPECT_EQ(few.at("life_years").at("value"), few.at("prior_life_years").at("value"));
  EXPECT_NE(few.at("sentence").get<std::string>().find("too few to say (4 failures so far; 5 are needed)"),
            std::string::npos);
  const Household five;
  ASSERT_EQ(five.import_events(ties_torn(5)).exit_code, 0);
  const nlohmann::json enough = part_of(five.upkeep("2025-03-02"), "tie");
  EXPECT_FALSE(enough.at("is_too_few"));
  EXPECT_EQ(enough.at("n_failures"), 5);
  EXPECT_EQ(enough.at("n_in_use"), 20);
  // More torn, shorter lives and more to replace.
  const Household most;
  ASSERT_EQ(most.import_events(ties_torn(15)).exit_code, 0);
  const nlohmann::json many = part_of(most.upkeep("2025-03-02"), "tie");
  EXPECT_LT(many.at("life_years").at("value"), enough.at("life_years").at("value"));
  EXPECT_LT(many.at("life_years").at("high"), enough.at("life_years").at("high"));
  EXPECT_NE(many.at("life_years").at("from").get<std::string>().find("measured on this roof, from 15 failures"),
            std::string::npos);
}

TEST(Upkeep, AsOfADayLaterEventsAreNotThere) {
  const Household house;
  ASSERT_EQ(house.import_events(ties_torn(15)).exit_code, 0);
  const nlohmann::json before = house.upkeep("2025-02-28");
  EXPECT_EQ(part_of(before, "tie").at("n_failures"), 0);
  EXPECT_EQ(before.at("logbook").at("n_events"), 40);
  EXPECT_EQ(before.at("logbook").at("n_modules"), 20);
  const ProgramRun wrong = house.houseleek({"upkeep", "a.houseleek", "--on", "tomorrow"});
  EXPECT_EQ(wrong.exit_code, 1);
  EXPECT_NE(wrong.err.find("on is \"tomorrow\"; it must be a date"), std::string::npos) << wrong.err;
}

TEST(Upkeep, TheRoundAfterAStormIsShownForFourteenDays) {
  const Household house;
  ASSERT_EQ(house.import_events(ties_torn(0) + "").exit_code, 0);
  ASSERT_EQ(house.houseleek({"log", "a.houseleek", "storm", "--gust-km-per-h", "90", "--at", "2025-03-10"}).exit_code,
            0);
  EXPECT_FALSE(house.upkeep("2025-03-09").at("after_storm").at("is_shown"));
  EXPECT_TRUE(house.upkeep("2025-03-24").at("after_storm").at("is_shown"));
  EXPECT_FALSE(house.upkeep("2025-03-26").at("after_storm").at("is_shown"));
  const ProgramRun asked = house.houseleek(
      {"upkeep", "a.houseleek", "--on", "2025-06-01", "--before-storm", "--after-storm", "--taking-off"});
  EXPECT_NE(asked.out.find("Before a storm (asked for)"), std::string::npos) << asked.out;
  EXPECT_NE(asked.out.find("After a storm (asked for)"), std::string::npos);
  EXPECT_NE(asked.out.find("Taking it off: the order"), std::string::npos);
}

TEST(Upkeep, WantsAProjectAndSaysWhatToLogInAnEmptyOne) {
  const Household house;
  const ProgramRun empty = house.houseleek({"upkeep", "a.houseleek"});
  EXPECT_EQ(empty.exit_code, 0) << empty.err;
  EXPECT_NE(empty.out.find("No module is logged."), std::string::npos) << empty.out;
  const ProgramRun toml = house.houseleek({"upkeep", "roof.toml"});
  EXPECT_EQ(toml.exit_code, 2);
  EXPECT_NE(toml.err.find("upkeep wants a project"), std::string::npos) << toml.err;
  EXPECT_EQ(house.houseleek({"upkeep", "none.houseleek"}).exit_code, 3);
  const ProgramRun over = house.houseleek({"upkeep", "a.houseleek", "--report", "a.houseleek"});
  EXPECT_EQ(over.exit_code, 2);
}

TEST(Upkeep, TheTextKeepsWithinEightyColumnsAndThePageIsWritten) {
  const Household house;
  ASSERT_EQ(house.import_events(ties_torn(7)).exit_code, 0);
  const ProgramRun run = house.houseleek({"upkeep", "a.houseleek", "--on", "2025-03-02", "--before-storm",
                                          "--after-storm", "--taking-off", "--report", "page.html"});
  ASSERT_EQ(run.exit_code, 0) << run.err;
  std::size_t begin = 0;
  while (begin < run.out.size()) {
    const std::size_t end = run.out.find('\n', begin);
    EXPECT_LE(end - begin, 80U) << run.out.substr(begin, end - begin);
    begin = end + 1;
  }
  const std::string page = file_text(house.folder.path() + "/page.html");
  EXPECT_NE(page.find("<svg"), std::string::npos);
  EXPECT_NE(page.find("Share of tie still in use by age"), std::string::npos);
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_EQ(run.out.find("safe"), std::string::npos);
}

}  // namespace
}  // namespace houseleek::tests
