// The answer of `check`: text and document say the same, and each of their fields follows the design.
#include "studies/check.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "support/catalogue_files.hpp"

namespace houseleek::studies {
namespace {

using tests::shipped_catalogue;
using tests::source_file_text;

const std::string house = "examples/01-terrace-house/roof.toml";

CheckAnswer check(const std::string& text) { return check_design(text, "roof.toml", shipped_catalogue()); }

std::string changed(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

bool has_caution(const report::Json& document, const std::string& id) {
  for (const report::Json& caution : document.at("cautions")) {
    if (caution.at("id") == id) return true;
  }
  return false;
}

TEST(Check, TerraceHouse) {
  const CheckAnswer answer = check(source_file_text(house));
  EXPECT_TRUE(answer.is_valid);
  EXPECT_EQ(answer.text.substr(0, answer.text.find("\n\n")),
            "roof.toml: the description is complete and consistent.\n"
            "  roof     63.8 m2, 4 layers, 4 rooms below\n"
            "  modules  24 on 24.0 m2; recipes: 2\n"
            "  weather  made from twelve monthly normals\n"
            "  load     2 kN/m2, written down by D. Invented, structural engineer on\n"
            "           2023-10-12");
  EXPECT_NE(answer.text.find(
                "  room[0].infiltration_per_h (and 3 more)\n      0.2, 0.5, 1.5 1/h  air change through cracks\n"),
            std::string::npos)
      << answer.text;
  const report::Json& document = answer.document;
  EXPECT_EQ(document.at("answer"), "check");
  EXPECT_TRUE(document.at("issues").empty());
  EXPECT_EQ(document.at("design").at("n_modules"), 24);
  EXPECT_NEAR(document.at("design").at("covered_m2").get<double>(), 24.0, 1e-9);
  EXPECT_GT(document.at("assumed").size(), 100U);
}

TEST(Check, NoLineIsWiderThanATerminal) {
  std::istringstream lines(check(source_file_text(house)).text);
  for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), 80U) << line;
}

TEST(Check, EveryFieldFollowsTheDesign) {
  const std::string text = source_file_text(house);
  const report::Json before = check(text).document;
  const report::Json fewer = check(changed(text, "columns = 7", "columns = 6")).document;
  EXPECT_EQ(fewer.at("design").at("n_modules"), 22);
  EXPECT_LT(fewer.at("design").at("covered_m2").get<double>(), before.at("design").at("covered_m2").get<double>());
  const report::Json larger =
      check(changed(text, "[[0, 0], [8.4, 0], [8.4, 7.6], [0, 7.6]]", "[[0, 0], [9, 0], [9, 7.6], [0, 7.6]]")).document;
  EXPECT_GT(larger.at("design").at("roof_m2").get<double>(), before.at("design").at("roof_m2").get<double>());
  EXPECT_EQ(check(changed(text, "\"Terrace house\"", "\"Our house\"")).document.at("design").at("name"), "Our house");
  EXPECT_LT(check(changed(text, "surroundings = \"suburb\"", "wind_factor = 0.7")).document.at("assumed").size(),
            before.at("assumed").size());
  // A warning is shown and does not refuse.
  const CheckAnswer shallow = check(changed(text, "name = \"Allium senescens\"", "name = \"Origanum vulgare\""));
  EXPECT_TRUE(shallow.is_valid);
  EXPECT_EQ(shallow.document.at("issues").at(0).at("severity"), "warning");
  EXPECT_NE(shallow.text.find("warning: Origanum vulgare wants 100 mm of medium; this recipe has 80"),
            std::string::npos);
}

TEST(Check, ALoadFigureThatIsNotWhole) {
  const std::string text = source_file_text(house);
  const CheckAnswer unsaid = check(changed(text, "when = 2023-10-12\n", ""));
  EXPECT_NE(unsaid.text.find("structural engineer; not\n           said: when, so no verdict\n"), std::string::npos)
      << unsaid.text;
  EXPECT_FALSE(has_caution(check(text).document, "load-not-given"));
  const CheckAnswer none = check(changed(text, "load_kn_per_m2 = 2.0\n", ""));
  EXPECT_NE(none.text.find("  load     no figure given: weights only, no verdict\n"), std::string::npos) << none.text;
  EXPECT_TRUE(has_caution(none.document, "load-not-given"));
}

TEST(Check, BrokenDesignGivesItsIssuesBothWays) {
  const CheckAnswer answer = check(changed(source_file_text(house), "thickness_mm = 160", "thickness_mm = 0.16"));
  EXPECT_FALSE(answer.is_valid);
  EXPECT_NE(answer.text.find("error: roof.deck[2].thickness_mm is 0.16; it must be from 0.5 to 2000 mm\n"),
            std::string::npos);
  EXPECT_NE(answer.text.find("  hint: give millimetres, not metres; did you mean 160?\n"), std::string::npos);
  const report::Json& issue = answer.document.at("issues").at(0);
  EXPECT_EQ(issue.at("code"), "out_of_range");
  EXPECT_EQ(issue.at("path"), "roof.deck[2].thickness_mm");
  EXPECT_EQ(issue.at("value"), "0.16");
  EXPECT_EQ(issue.at("limit"), "from 0.5 to 2000 mm");
  EXPECT_GT(issue.at("line").get<int>(), 1);
  EXPECT_TRUE(answer.document.at("design").is_null());
  EXPECT_TRUE(answer.document.at("assumed").empty());
}

// No verdict is hidden in the words.
TEST(Check, NeverSaysSafe) {
  const std::string text = check(source_file_text(house)).text;
  EXPECT_EQ(text.find("safe"), std::string::npos);
  EXPECT_EQ(text.find("passes"), std::string::npos);
}

}  // namespace
}  // namespace houseleek::studies
