// `houseleek plants` as a person runs it: both examples on a page of 80 columns, a frost climate, slips of the pen.
#include <gtest/gtest.h>

#include <regex>
#include <sstream>

#include "base/utf8.hpp"
#include "cli/run_program.hpp"

namespace houseleek {
namespace {

using tests::run_program;

const std::string examples = std::string(HOUSELEEK_SOURCE_DIR) + "/examples/";

void expect_page(const std::string& text) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(count_characters(line), 80U) << line;
  std::smatch found;
  const std::regex promise(R"(\b(safe|safely|ok|okay|pass|passes|passed)\b)", std::regex::icase);
  EXPECT_FALSE(std::regex_search(text, found, promise)) << found.str();
}

TEST(PlantsCommand, BothExamplesFitTheirPage) {
  for (const char* name : {"01-terrace-house", "02-garage-studio"}) {
    const auto run = run_program({"plants", examples + name + "/roof.toml"}, HOUSELEEK_SOURCE_DIR);
    EXPECT_EQ(run.exit_code, 0) << run.err;
    expect_page(run.out);
    for (const char* part : {"INVENTED", "Coldest night once in 20 years", "Grows there now", "Could grow there",
                             "In bloom as long as can be", "Invasive plants", "The year in letters", "More: --for"}) {
      EXPECT_NE(run.out.find(part), std::string::npos) << part;
    }
    // A share of survival stands nowhere before losses are logged.
    EXPECT_EQ(run.out.find(" %"), std::string::npos);
  }
}

TEST(PlantsCommand, OnePlantSaysWhyNot) {
  const auto run =
      run_program({"plants", examples + "02-garage-studio/roof.toml", "--plant", "carob", "--recipe", "herb bed"},
                  HOUSELEEK_SOURCE_DIR);
  EXPECT_EQ(run.exit_code, 0) << run.err;
  expect_page(run.out);
  EXPECT_NE(run.out.find("AGAINST: one winter in 20 has a night"), std::string::npos) << run.out;
  EXPECT_EQ(run.out.find("Sedum album"), std::string::npos) << run.out;
}

TEST(PlantsCommand, SlipsOfThePenAreNamedAtOnceWithoutARun) {
  const auto run = run_program({"plants", examples + "01-terrace-house/roof.toml", "--for", "bes", "--room", "attic",
                                "--raise", "10", "--plant", "carob"},
                               HOUSELEEK_SOURCE_DIR);
  EXPECT_EQ(run.exit_code, 1);
  EXPECT_TRUE(run.out.empty());
  for (const char* part : {"for: there is no purpose \"bes\"", "room: there is no room \"attic\"", "by is missing"}) {
    EXPECT_NE(run.err.find(part), std::string::npos) << run.err;
  }
}

TEST(PlantsCommand, HelpHasAnExample) {
  const auto run = run_program({"plants", "--help"}, HOUSELEEK_SOURCE_DIR);
  EXPECT_EQ(run.exit_code, 0);
  EXPECT_NE(run.out.find("Example: houseleek plants"), std::string::npos);
}

}  // namespace
}  // namespace houseleek
