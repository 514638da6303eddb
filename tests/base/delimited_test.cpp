// Delimited text: what RFC 4180 asks, places of fields, and files that are broken or no text at all.
#include "base/delimited.hpp"

#include <gtest/gtest.h>

namespace houseleek {
namespace {

std::vector<DelimitedRow> rows_of(std::string_view text, char delimiter = ',') {
  const auto result = parse_delimited(text, "a.csv", delimiter);
  EXPECT_TRUE(result.has_value());
  return result ? result.value() : std::vector<DelimitedRow>{};
}

TEST(Delimited, FieldsWithTheirPlaces) {
  const auto rows = rows_of("a,b\r\n12,\"x, \"\"y\"\"\"\n");
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0], (DelimitedRow{{"a", 1, 1, false}, {"b", 1, 3, false}}));
  EXPECT_EQ(rows[1], (DelimitedRow{{"12", 2, 1, false}, {"x, \"y\"", 2, 4, true}}));
}

TEST(Delimited, ALineEndInsideQuotesBelongsToTheField) {
  const auto rows = rows_of("\"one\r\ntwo\",b\nc");
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0][0].text, "one\ntwo");
  EXPECT_EQ(rows[0][1], (DelimitedField{"b", 2, 6, false}));
  EXPECT_EQ(rows[1][0], (DelimitedField{"c", 3, 1, false}));
}

TEST(Delimited, EmptyFieldsAreKeptAndEmptyLinesAreNoRecord) {
  const auto rows = rows_of(",\n\n\r\na,,\n");
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].size(), 2U);
  EXPECT_EQ(rows[1].size(), 3U);
  EXPECT_EQ(rows[1][2], (DelimitedField{"", 4, 4, false}));
  EXPECT_TRUE(rows_of("").empty());
}

TEST(Delimited, ColumnsCountCharactersAndTheByteOrderMarkNone) {
  const auto rows = rows_of("\xEF\xBB\xBF\xC3\xA9\xE2\x82\xAC;b", ';');
  EXPECT_EQ(rows[0][0].column, 1);
  EXPECT_EQ(rows[0][1].column, 4);
}

TEST(Delimited, EveryQuoteFaultIsFoundWithItsPlace) {
  const auto result = parse_delimited("a\"b,\"c\"d,e\nf,\"never\ng,h\n", "bad.csv");
  ASSERT_FALSE(result.has_value());
  const Issues& issues = result.error();
  ASSERT_EQ(issues.size(), 3U);
  EXPECT_EQ(issues[0].line, 1);
  EXPECT_EQ(issues[0].column, 2);
  EXPECT_EQ(issues[0].message, "there is a quote inside a field that does not start with one");
  EXPECT_EQ(issues[1].column, 8);
  EXPECT_EQ(issues[1].message, "there are characters behind a closing quote");
  EXPECT_EQ(issues[2].line, 2);
  EXPECT_EQ(issues[2].column, 3);
  EXPECT_EQ(issues[2].message, "a quote is opened here and never closed");
  for (const Issue& issue : issues) {
    EXPECT_EQ(issue.code, IssueCode::syntax);
    EXPECT_EQ(issue.file, "bad.csv");
  }
}

TEST(Delimited, WhatIsNoTextGivesOneIssue) {
  for (const std::string_view text : {std::string_view("a,b\nc\0d,\"", 9), std::string_view("a,b\nc\xFF\"x,y"),
                                      std::string_view("a,b\nc\rd"), std::string_view("a,b\n\"\x01")}) {
    const auto result = parse_delimited(text, "bad.csv");
    ASSERT_FALSE(result.has_value());
    ASSERT_EQ(result.error().size(), 1U);
    EXPECT_EQ(result.error()[0].line, 2);
    EXPECT_EQ(result.error()[0].column, 2);
    EXPECT_EQ(result.error()[0].message, "there is a byte here that is no text");
  }
}

TEST(Delimited, NumbersFillTheWholeText) {
  EXPECT_EQ(number_from_text(" -1.25e2 "), -125.0);
  EXPECT_EQ(number_from_text("0.1"), 0.1);
  EXPECT_EQ(number_from_text(".5"), 0.5);
  for (const std::string_view text : {"", "  ", "1,5", "1.5 mm", "nan", "inf", "1e400", "0x10", "--1", "1 2", "abc"}) {
    EXPECT_EQ(number_from_text(text), std::nullopt) << text;
  }
}

}  // namespace
}  // namespace houseleek
