// The text of issues, letter by letter: it is what a person sees first.
#include "base/issue_text.hpp"

#include <gtest/gtest.h>

#include "base/nearest_name.hpp"
#include "base/zone.hpp"

namespace houseleek {
namespace {

Issue thickness_issue() {
  Issue issue;
  issue.code = IssueCode::out_of_range;
  issue.file = "roof.toml";
  issue.line = 2;
  issue.column = 16;
  issue.message = "recipe[0].layer[2].thickness_mm is -50; it must be from 3 to 500 mm";
  issue.hint = "did you mean 50?";
  return issue;
}

TEST(IssueText, ShowsPlaceLineCaretAndHint) {
  EXPECT_EQ(text_from_issue(thickness_issue(), "[[recipe.layer]]\nthickness_mm = -50  # the core\n"),
            "roof.toml:2:16: error: recipe[0].layer[2].thickness_mm is -50; it must be from 3 to 500 mm\n"
            "    thickness_mm = -50  # the core\n"
            "                   ^\n"
            "  hint: did you mean 50?\n");
}

TEST(IssueText, CaretCountsCharactersAndTabsAreOneWide) {
  Issue issue = thickness_issue();
  issue.line = 1;
  issue.column = 8;
  issue.hint.clear();
  issue.severity = Severity::warning;
  issue.message = "m";
  EXPECT_EQ(text_from_issue(issue, "\t\"\xC3\xA4\xC3\xB6\" = -1"),
            "roof.toml:1:8: warning: m\n"
            "     \"\xC3\xA4\xC3\xB6\" = -1\n"
            "           ^\n");
}

TEST(IssueText, CutsLongLinesAroundThePlace) {
  Issue issue = thickness_issue();
  issue.line = 1;
  issue.column = 301;
  const std::string text = text_from_issue(issue, std::string(300, 'a') + "X" + std::string(300, 'b'));
  EXPECT_NE(text.find("\n    ..." + std::string(60, 'a') + "X" + std::string(39, 'b') + "...\n"), std::string::npos)
      << text;
  EXPECT_NE(text.find("\n    " + std::string(63, ' ') + "^\n"), std::string::npos) << text;
}

TEST(IssueText, WithoutAPlaceNoExcerpt) {
  Issue issue;
  issue.message = "the design has no rooms";
  EXPECT_EQ(text_from_issue(issue, "x = 1"), "error: the design has no rooms\n");
}

TEST(IssueText, CountsWhatIsNotShown) {
  Issue issue;
  issue.message = "m";
  EXPECT_EQ(text_from_issues(Issues(5, issue), "", 2), "error: m\nerror: m\n... and 3 more\n");
  EXPECT_EQ(text_from_issues(Issues(2, issue), "", 2), "error: m\nerror: m\n");
}

TEST(IssueText, SortsByPlace) {
  Issue a = thickness_issue();
  Issue b = thickness_issue();
  Issue c = thickness_issue();
  a.line = 9;
  b.line = 2;
  b.column = 40;
  const Issues sorted = sorted_by_place({a, b, c});
  EXPECT_EQ(sorted[0], c);
  EXPECT_EQ(sorted[1], b);
  EXPECT_EQ(sorted[2], a);
}

TEST(NearestName, CountsEditsAndSwaps) {
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3);
  EXPECT_EQ(edit_distance("", "abc"), 3);
  EXPECT_EQ(edit_distance("matreial", "material"), 1);
}

TEST(NearestName, FoldsCaseAndBlanks) { EXPECT_EQ(folded_name("  Crushed \t Brick "), "crushed brick"); }

TEST(NearestName, FindsOnlyWhatIsNear) {
  const std::string known[] = {"crushed brick", "expanded clay", "thickness_mm"};
  EXPECT_EQ(find_nearest_name("Crushd brick", known), "crushed brick");
  EXPECT_EQ(find_nearest_name("thickness", known), "thickness_mm");
  EXPECT_EQ(find_nearest_name("granite", known), std::nullopt);
  EXPECT_EQ(find_nearest_name("", known), std::nullopt);
}

// Offsets and rules: the tz database's own data as published by IANA, common knowledge, from memory.
TEST(Zone, OffsetsOfTheYear2023) {
  const std::optional<ZoneInfo> athens = find_zone("Europe/Athens", 2023);
  ASSERT_TRUE(athens);
  EXPECT_EQ(athens->standard_offset_s, 7200);
  EXPECT_EQ(athens->daylight_saving_s, 3600);
  EXPECT_TRUE(athens->has_daylight_saving);
  const std::optional<ZoneInfo> kolkata = find_zone("Asia/Kolkata", 2023);
  ASSERT_TRUE(kolkata);
  EXPECT_EQ(kolkata->standard_offset_s, 19800);
  EXPECT_FALSE(kolkata->has_daylight_saving);
  EXPECT_EQ(find_zone("Australia/Lord_Howe", 2023)->daylight_saving_s, 1800);
  EXPECT_EQ(find_zone("America/St_Johns", 2023)->standard_offset_s, -12600);
}

TEST(Zone, NegativeSavingDoesNotShiftStandardTime) {
  EXPECT_EQ(find_zone("Europe/Dublin", 2023)->standard_offset_s, 0);
  EXPECT_EQ(find_zone("Africa/Casablanca", 2023)->standard_offset_s, 3600);
}

TEST(Zone, UnknownNames) {
  EXPECT_FALSE(is_zone_known("Europe/Atlantis"));
  EXPECT_FALSE(is_zone_known(""));
  EXPECT_FALSE(find_zone("+02:00", 2023));
  EXPECT_TRUE(is_zone_known("Europe/Lisbon"));
  EXPECT_GT(zone_names().size(), 300U);
}

}  // namespace
}  // namespace houseleek
