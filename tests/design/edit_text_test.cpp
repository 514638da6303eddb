// Edits of a description: the wanted figure is read, and no other byte moves.
#include "design/edit_text.hpp"

#include <gtest/gtest.h>

#include "support/small_design.hpp"

namespace houseleek::design {
namespace {

RawDesign raw_from(const std::string& text) {
  Result<RawDesign> raw = parse_design(text, "roof.toml");
  EXPECT_TRUE(raw.has_value());
  return std::move(raw).value();
}

const TomlNode& table_at(const RawDesign& raw, const std::string& list, std::size_t index) {
  return find_member(raw.root, list)->items.at(index);
}

std::string with_key(const std::string& text, const std::string& list, const std::string& key,
                     const std::string& value) {
  const RawDesign raw = raw_from(text);
  return with_changes(text, {change_key(raw, table_at(raw, list, 0), key, value)});
}

TEST(EditText, ANewKeyStandsBehindTheTablesOwn) {
  const std::string text = "[[a]]\nx = 1  # why, in \u00E4 word\n# more\n[[a.b]]\ny = 2\n";
  EXPECT_EQ(with_key(text, "a", "side", "\"one\""),
            "[[a]]\nx = 1  # why, in \u00E4 word\nside = \"one\"\n# more\n[[a.b]]\ny = 2\n");
  // A table that says nothing itself, one without a line end, and one that is written over several lines.
  EXPECT_EQ(with_key("[[a]]\n[[a.b]]\ny = 2\n", "a", "z", "3"), "[[a]]\nz = 3\n[[a.b]]\ny = 2\n");
  EXPECT_EQ(with_key("[[a]]\nx = 1", "a", "z", "3"), "[[a]]\nx = 1\nz = 3\n");
  EXPECT_EQ(with_key("[[a]]\nx = [1,\n  2]  # two\n[c]\n", "a", "z", "3"), "[[a]]\nx = [1,\n  2]  # two\nz = 3\n[c]\n");
  EXPECT_EQ(with_key("[[a]]\nx = 1\nq.r = 2\n[c]\n", "a", "z", "3"), "[[a]]\nx = 1\nq.r = 2\nz = 3\n[c]\n");
}

TEST(EditText, AValueIsReplacedAndItsCommentStays) {
  EXPECT_EQ(with_key("[[a]]\nx = \"\u00E4\u00F6\"   # both\ny = 1\n", "a", "x", "2.5"),
            "[[a]]\nx = 2.5   # both\ny = 1\n");
  EXPECT_EQ(with_key("[[a]]\nx = { low = 1, high = 2 }# so\n", "a", "x", "4"), "[[a]]\nx = 4# so\n");
}

TEST(EditText, BracesGetAnotherPart) {
  const std::string text = "[a]\nb = { x = 1 }  # c\nd = {}\n";
  const RawDesign raw = raw_from(text);
  const TomlNode& a = *find_member(raw.root, "a");
  EXPECT_EQ(with_changes(text, {change_key(raw, *find_member(a, "b"), "y", "2"),
                                change_key(raw, *find_member(a, "d"), "z", "3")}),
            "[a]\nb = { x = 1, y = 2 }  # c\nd = { z = 3 }\n");
}

TEST(EditText, TextsAreWrittenAsTomlHasThem) {
  EXPECT_EQ(toml_text_from("a \"b\" \\ c\n\u00E4"), "\"a \\\"b\\\" \\\\ c\\u000A\u00E4\"");
}

constexpr const char* measured = R"({ low = 0.1, likely = 0.2, high = 0.3, source = "s", certainty = "measured" })";

/// The small house after an edit, with the row that the figure has.
Assumption row_after(const std::string& path, const std::string& before, std::string* changed = nullptr) {
  const ValidDesign read = tests::valid_design(before);
  const RawDesign raw = raw_from(before);
  const std::optional<TextChange> change = change_figure(raw, *read, path, measured);
  EXPECT_TRUE(change.has_value()) << path;
  if (!change) return {};
  const std::string after = with_changes(before, {*change});
  if (changed != nullptr) *changed = after;
  const ValidDesign again = tests::valid_design(after);
  for (const Assumption& one : again.assumed()) {
    if (one.path == path) return one;
  }
  ADD_FAILURE() << path << " is not among the assumptions:\n" << after;
  return {};
}

TEST(EditText, FiguresOfEveryKindAreReadAsMeasured) {
  const std::string small = tests::small_design_text();
  for (const std::string path : {"recipe[0].spacer.gap_wind_frac", "roof.finish.albedo",
                                 "material[horticultural mineral wool].conductivity_w_per_m_k"}) {
    std::string after;
    const Assumption row = row_after(path, small, &after);
    EXPECT_EQ(row.from, AssumedFrom::measured) << path;
    EXPECT_EQ(row.low, 0.1) << path;
    EXPECT_EQ(row.likely, 0.2) << path;
    EXPECT_EQ(row.high, 0.3) << path;
    EXPECT_EQ(row.source, "s") << path;
    // A second edit of the same figure changes it in place.
    const ValidDesign read = tests::valid_design(after);
    const std::optional<TextChange> change = change_figure(raw_from(after), *read, path, "0.25");
    ASSERT_TRUE(change.has_value());
    const std::string plain = with_changes(after, {*change});
    const ValidDesign twice = tests::valid_design(plain);
    for (const Assumption& one : twice.assumed()) EXPECT_NE(one.path, path);
    EXPECT_NE(plain.find("= 0.25"), std::string::npos) << path;
  }
}

TEST(EditText, AFinishByNameKeepsItsOtherFigure) {
  const std::string text =
      tests::edited(tests::small_design_text(),
                    {{"finish = { albedo = 0.2, emissivity = 0.9 }", "finish = \"bitumen, weathered\"  # grey"}});
  const ValidDesign before = tests::valid_design(text);
  const std::string after = with_changes(text, {*change_figure(raw_from(text), *before, "roof.finish.albedo", "0.2")});
  EXPECT_NE(after.find("emissivity = "), std::string::npos);
  EXPECT_NE(after.find("}  # grey"), std::string::npos);
  EXPECT_EQ(tests::valid_design(after)->roof.finish.emissivity, before->roof.finish.emissivity);
}

TEST(EditText, ATableThatIsMissingIsMade) {
  const std::string path = "recipe[0].canopy.least_stomatal_resistance_s_per_m";
  const std::string text = tests::small_design_text();
  const ValidDesign before = tests::valid_design(text);
  const std::string after = with_changes(text, {*change_figure(raw_from(text), *before, path, "250")});
  EXPECT_NE(after.find("canopy = { least_stomatal_resistance_s_per_m = 250 }"), std::string::npos);
  EXPECT_EQ(tests::valid_design(after)->recipes[0].canopy.least_stomatal_resistance_s_per_m, 250.0);
}

TEST(EditText, WhatIsUnderItsOwnHeaderIsNotTouched) {
  const std::string text = tests::edited(tests::small_design_text(),
                                         {{"gap_wind_frac = 0.1\nmass_kg_per_module = 0.5\n",
                                           "mass_kg_per_module = 0.5\n[recipe.spacer.gap_wind_frac]\nlikely = 0.1\n"}});
  const ValidDesign read = tests::valid_design(text);
  EXPECT_EQ(read->recipes[0].spacer.gap_wind_frac, 0.1);
  EXPECT_FALSE(change_figure(raw_from(text), *read, "recipe[0].spacer.gap_wind_frac", "0.2").has_value());
  EXPECT_FALSE(change_figure(raw_from(text), *read, "recipe[7].spacer.gap_wind_frac", "0.2").has_value());
}

}  // namespace
}  // namespace houseleek::design
