// `houseleek water` and `houseleek week` as a person meets them.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {
namespace {

struct Household {
  const TemporaryFolder folder;
  Household() { (void)folder.write("roof.toml", small_design_text()); }
  [[nodiscard]] ProgramRun houseleek(const std::vector<std::string>& arguments) const {
    return run_program(arguments, folder.path());
  }
  [[nodiscard]] std::string text_of(const std::string& name) const {
    std::ifstream file(folder.path() + "/" + name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  }
};

TEST(WaterCommand, AnswersAndWritesItsPages) {
  const Household house;
  const ProgramRun run =
      house.houseleek({"water", "roof.toml", "--on", "2026-02-10", "--years", "1", "--away-from", "2026-02-11",
                       "--away-to", "2026-03-01", "--sheet", "sheet.html", "--report", "water.html"});
  EXPECT_EQ(run.exit_code, 0) << run.err;
  EXPECT_NE(run.out.find("CAUTION: People die falling"), std::string::npos);
  EXPECT_NE(run.out.find("By season, for this roof"), std::string::npos);
  EXPECT_EQ(run.err, "The page: water.html\nThe sheet: sheet.html\n");
  EXPECT_NE(house.text_of("water.html").find("id=\"barrel-curve\""), std::string::npos);
  const std::string sheet = house.text_of("sheet.html");
  EXPECT_NE(sheet.find("Our telephone"), std::string::npos);
  EXPECT_NE(sheet.find("Never go up alone"), std::string::npos);
  // The same page for both, over the description, or a sheet without days: refused before anything runs.
  EXPECT_EQ(house.houseleek({"water", "roof.toml", "--report", "roof.toml"}).exit_code, 2);
  EXPECT_EQ(house.houseleek({"water", "roof.toml", "--sheet", "s.html"}).exit_code, 2);
}

TEST(WaterCommand, WrongWishesAreListedTogether) {
  const Household house;
  const ProgramRun run = house.houseleek({"water", "roof.toml", "--on", "yesterday", "--can", "0", "--max", "99"});
  EXPECT_EQ(run.exit_code, 1);
  EXPECT_EQ(run.out, "");
  for (const char* part : {"on is \"yesterday\"; it must be a date", "can is 0", "max is 99"}) {
    EXPECT_NE(run.err.find(part), std::string::npos) << part << run.err;
  }
  const ProgramRun json = house.houseleek({"week", "roof.toml", "--gust", "0", "--rain", "-1", "--json"});
  EXPECT_EQ(json.exit_code, 1);
  EXPECT_EQ(nlohmann::json::parse(json.out).at("issues").size(), 2U);
}

TEST(WeekCommand, ALineOfTheListTicksItOff) {
  const Household house;
  EXPECT_EQ(house.houseleek({"import", "roof.toml", "--to", "a.houseleek"}).exit_code, 0);
  EXPECT_EQ(house
                .houseleek({"log", "a.houseleek", "looked_at", "--room", "bedroom", "--condition", "good", "--at",
                            "2026-01-01"})
                .exit_code,
            0);
  const ProgramRun before = house.houseleek({"week", "a.houseleek", "--on", "2026-02-10"});
  EXPECT_EQ(before.exit_code, 0) << before.err;
  EXPECT_NE(before.out.find("Outlets and gratings"), std::string::npos) << before.out;
  EXPECT_NE(before.out.find("houseleek log a.houseleek looked_at --part outlets --condition good"), std::string::npos);
  EXPECT_EQ(house
                .houseleek({"log", "a.houseleek", "looked_at", "--part", "outlets", "--condition", "good", "--at",
                            "2026-02-10"})
                .exit_code,
            0);
  EXPECT_EQ(house.houseleek({"week", "a.houseleek", "--on", "2026-02-10"}).out.find("Outlets and gratings"),
            std::string::npos);
}

}  // namespace
}  // namespace houseleek::tests
