// The TOML tree: places of nodes, and texts that must never reach the parser.
#include "base/toml_tree.hpp"

#include <gtest/gtest.h>

#include "base/toml_fields.hpp"
#include "base/utf8.hpp"

namespace houseleek {
namespace {

constexpr TomlLimits limits{.max_bytes = 100000, .max_line_bytes = 1000, .max_depth = 8};

Issue only_issue(std::string_view text) {
  const Result<TomlNode> parsed = parse_toml(text, "a.toml", limits);
  EXPECT_FALSE(parsed);
  if (parsed) return {};
  EXPECT_EQ(parsed.error().size(), 1U);
  return parsed.error().front();
}

TEST(TomlTree, NodesKnowTheirPlaces) {
  const Result<TomlNode> parsed =
      parse_toml("zeta = 1\nalpha = \"\xC3\xA4\xC3\xB6\" # umlauts\n[tab]\nlist = [1.5, 2]\n", "a.toml", limits);
  ASSERT_TRUE(parsed);
  const TomlNode& root = parsed.value();
  ASSERT_EQ(root.members.size(), 3U);
  EXPECT_EQ(root.members[0].key, "zeta");  // the order of the file, not of the alphabet
  EXPECT_EQ(root.members[1].node.text, "\xC3\xA4\xC3\xB6");
  EXPECT_EQ(root.members[1].node.begin, (TextPlace{2, 9}));
  EXPECT_EQ(root.members[1].node.end, (TextPlace{2, 13}));  // columns count characters, not bytes
  const TomlNode* list = find_member(root.members[2].node, "list");
  ASSERT_NE(list, nullptr);
  EXPECT_EQ(list->items[1].begin, (TextPlace{4, 14}));
  EXPECT_EQ(list->items[1].kind, TomlKind::integer);
  EXPECT_EQ(root.members[2].node.begin, (TextPlace{3, 1}));
}

TEST(TomlTree, KeepsDatesAsText) {
  const Result<TomlNode> parsed = parse_toml("when = 2024-05-03\n", "a.toml", limits);
  ASSERT_TRUE(parsed);
  EXPECT_EQ(parsed.value().members[0].node.kind, TomlKind::date);
  EXPECT_EQ(parsed.value().members[0].node.text, "2024-05-03");
}

TEST(TomlTree, SyntaxErrorHasItsPlace) {
  const Issue issue = only_issue("a = 1\nb = = 2\n");
  EXPECT_EQ(issue.code, IssueCode::syntax);
  EXPECT_EQ(issue.line, 2);
  EXPECT_EQ(issue.column, 5);
  EXPECT_EQ(issue.file, "a.toml");
}

// The parser's own assertions do not hold for these; they must come out as issues all the same.
TEST(TomlTree, BrokenHeadersAndKeysAreIssues) {
  for (const std::string_view text :
       {"[=\n", "[[=\n", "[\n", "[", "[[", "a.=1", "a.", "= 1", "[a.=]", "a = [", "a = {", "a = {b", "a"}) {
    EXPECT_EQ(only_issue(text).code, IssueCode::syntax) << text;
  }
}

TEST(TomlTree, BeyondAsciiOnlyInQuotesAndComments) {
  const Issue curved = only_issue("a = 1\nb = \xE2\x80\x9Cx\xE2\x80\x9D\n");
  EXPECT_EQ(curved.line, 2);
  EXPECT_EQ(curved.column, 5);
  EXPECT_EQ(curved.message, "the character \xE2\x80\x9C may stand only inside quotes or after #");
  EXPECT_EQ(only_issue("a = 1\xEF\xAD\xB0\n").column, 6);               // U+FB70
  EXPECT_EQ(only_issue("a = \"\"\"\\\xEF\xAD\xB0\"\"\"\n").column, 9);  // after a backslash
  EXPECT_EQ(only_issue("\xC3\xA4 = 1\n").code, IssueCode::syntax);
  EXPECT_TRUE(
      parse_toml("\xEF\xBB\xBF"
                 "a = '\xEF\xAD\xB0' # \xEF\xAD\xB0\n\"\xC3\xA4\" = 2\n",
                 "a.toml", limits));
  // The quotes before the last three belong to the text.
  EXPECT_TRUE(parse_toml("a = \"\"\"x\"\"\"\"\"\nb = \"\xC3\xA4\"\n", "a.toml", limits));
}

TEST(TomlTree, RefusesControlBytes) {
  const Issue issue = only_issue(std::string_view("a = 1\nb = \x01 2\n"));
  EXPECT_EQ(issue.line, 2);
  EXPECT_EQ(issue.column, 5);
  EXPECT_EQ(issue.message, "the file holds a control byte (0x01); a design is plain text");
  EXPECT_EQ(only_issue(std::string_view("a\0b", 3)).column, 2);
}

TEST(TomlTree, RefusesWhatIsNotUtf8) {
  EXPECT_EQ(only_issue("a = \"\xFF\"\n").message, "the byte 0xFF here is not UTF-8 text");
  EXPECT_EQ(only_issue("a = \"\xC3\"\n").column, 6);      // cut short
  EXPECT_EQ(only_issue("\xED\xA0\x80 = 1\n").column, 1);  // half a surrogate pair
}

TEST(TomlTree, RefusesLongLinesAndLongFiles) {
  const Issue line = only_issue("a = 1\nb = \"" + std::string(400000 / 8, 'x') + "\"\n");
  EXPECT_EQ(line.code, IssueCode::out_of_range);
  EXPECT_EQ(line.line, 2);
  EXPECT_EQ(line.message, "the line is longer than 1000 bytes");
  EXPECT_EQ(only_issue(std::string(100001, '\n')).message, "the file has 100001 bytes; at most 100000 are read");
}

TEST(TomlTree, RefusesDeepNesting) {
  EXPECT_EQ(only_issue("a = " + std::string(9, '[') + std::string(9, ']')).message,
            "tables or lists lie more than 8 levels deep");
  std::string dotted = "a";
  for (int i = 0; i < 9; ++i) dotted += ".a";
  EXPECT_EQ(only_issue("b = 1\n" + dotted + " = 1\n").line, 2);
  // Dots and brackets in strings and comments are no levels.
  EXPECT_TRUE(parse_toml("a = \"[[[[[[[[[[ ..........\" # [[[[[[[[[[ ..........\n", "a.toml", limits));
  EXPECT_TRUE(parse_toml("a = '''\n[[[[[[[[[[\n'''\nb = \"\\\"[[[[[[[[[[\"\n", "a.toml", limits));
}

TEST(Utf8, WalksAndCounts) {
  EXPECT_EQ(count_characters("a\xC3\xA4\xE2\x82\xAC\xF0\x9F\x8C\xB1"), 4U);
  EXPECT_EQ(offset_of_character("\xC3\xA4z", 1), 2U);
  EXPECT_EQ(character_bytes("\xC0\x80", 0), 0U);  // overlong
  EXPECT_EQ(line_of_text("one\r\ntwo\n\nfour", 1), "one");
  EXPECT_EQ(line_of_text("one\r\ntwo\n\nfour", 4), "four");
  EXPECT_EQ(line_of_text("one", 2), "");
}

struct FieldsTest : testing::Test {
  FieldReader read(std::string_view text) {
    Result<TomlNode> parsed = parse_toml(text, "a.toml", limits);
    EXPECT_TRUE(parsed);
    root = std::move(parsed).value();
    return {text, "a.toml", {}};
  }
  TomlNode root;
};

TEST_F(FieldsTest, HintsAtSlipsOfUnits) {
  struct Case {
    std::string text;
    NumberRule rule;
    std::string hint;
  };
  const Case cases[] = {
      {"thick_mm = 0.05",
       {.key = "thick_mm", .least = 3, .most = 500, .unit = "mm"},
       "give millimetres, not metres; did you mean 50?"},
      {"thick_mm = 2.5",
       {.key = "thick_mm", .least = 3, .most = 500, .unit = "mm"},
       "give millimetres, not cm; did you mean 25?"},
      {"thick_mm = -50", {.key = "thick_mm", .least = 3, .most = 500, .unit = "mm"}, "did you mean 50?"},
      {"high_m = 2500",
       {.key = "high_m", .least = 1, .most = 10, .unit = "m"},
       "give metres, not millimetres; did you mean 2.5?"},
      {"some_frac = 65",
       {.key = "some_frac", .least = 0, .most = 1, .unit = "share"},
       "give a share from 0 to 1, not a percentage; did you mean 0.65?"},
      {"warm_c = 95",
       {.key = "warm_c", .least = -60, .most = 60, .unit = "degC"},
       "give degrees Celsius; 95 degF is 35 degC"},
      {"warm_c = 300.15",
       {.key = "warm_c", .least = -60, .most = 60, .unit = "degC"},
       "give degrees Celsius; 300.15 K is 27 degC"},
      {"thick_mm = \"50 mm\"",
       {.key = "thick_mm", .least = 3, .most = 500, .unit = "mm"},
       "write the number alone, without quotes: thick_mm = 50"},
      {"thick_mm = nan",
       {.key = "thick_mm", .least = 3, .most = 500, .unit = "mm"},
       "leave the line out if you do not know the figure"},
  };
  for (const Case& one : cases) {
    FieldReader reader = read(one.text);
    EXPECT_FALSE(read_number(reader, {&root, ""}, one.rule)) << one.text;
    ASSERT_EQ(reader.issues.size(), 1U) << one.text;
    EXPECT_EQ(reader.issues[0].hint, one.hint) << one.text;
  }
}

TEST_F(FieldsTest, MessagesSayValueAndLimits) {
  FieldReader reader = read("thick_mm = -50\nshare = inf\n");
  EXPECT_FALSE(read_number(reader, {&root, "layer[2]"}, {.key = "thick_mm", .least = 3, .most = 500, .unit = "mm"}));
  EXPECT_FALSE(read_number(reader, {&root, ""}, {.key = "share", .least = 0, .most = 1, .is_least_open = true}));
  EXPECT_EQ(reader.issues[0].message, "layer[2].thick_mm is -50; it must be from 3 to 500 mm");
  EXPECT_EQ(reader.issues[0].limit, "from 3 to 500 mm");
  EXPECT_EQ(reader.issues[0].value, "-50");
  EXPECT_EQ(reader.issues[0].path, "layer[2].thick_mm");
  EXPECT_EQ(reader.issues[1].message, "share is inf; it must be a number greater than 0 and at most 1");
}

TEST_F(FieldsTest, UnknownKeysNameTheNearest) {
  FieldReader reader = read("thickness = 50\nmatreial = \"x\"\nzzz = 1\n");
  constexpr std::string_view known[] = {"thickness_mm", "material", "role"};
  check_keys(reader, {&root, "layer[0]"}, known);
  ASSERT_EQ(reader.issues.size(), 3U);
  EXPECT_EQ(reader.issues[0].message, "layer[0].thickness is not known here");
  EXPECT_EQ(reader.issues[0].hint, "did you mean thickness_mm?");
  EXPECT_EQ(reader.issues[1].hint, "did you mean material?");
  EXPECT_EQ(reader.issues[1].line, 2);
  EXPECT_EQ(reader.issues[1].column, 1);  // at the key, not at its value
  EXPECT_EQ(reader.issues[2].hint, "known here: thickness_mm, material, role");
}

TEST_F(FieldsTest, ListsAreCountedAndJudgedItemByItem) {
  FieldReader reader = read("max_c = [1, 2, 300]\n");
  EXPECT_FALSE(read_numbers(reader, {&root, ""}, {.key = "max_c", .least = -60, .most = 60, .unit = "degC"}, 12));
  ASSERT_EQ(reader.issues.size(), 2U);
  EXPECT_EQ(reader.issues[0].message, "max_c has 3 entries; it must have 12");
  EXPECT_EQ(reader.issues[1].path, "max_c[2]");
  EXPECT_EQ(reader.issues[1].column, 16);
}

TEST_F(FieldsTest, WordsOfAListAreNamed) {
  constexpr std::pair<std::string_view, int> choices[] = {{"open", 1}, {"closed", 2}};
  FieldReader reader = read("a = \"close\"\nb = \"open\"\nc = \"round\"\n");
  EXPECT_FALSE(read_choice<int>(reader, {&root, ""}, "a", choices));
  EXPECT_EQ(read_choice<int>(reader, {&root, ""}, "b", choices), 1);
  EXPECT_FALSE(read_choice<int>(reader, {&root, ""}, "c", choices));
  EXPECT_FALSE(read_choice<int>(reader, {&root, ""}, "d", choices));  // absent: no issue
  ASSERT_EQ(reader.issues.size(), 2U);
  EXPECT_EQ(reader.issues[0].message, "a is \"close\"; it must be one of open, closed");
  EXPECT_EQ(reader.issues[0].hint, "did you mean \"closed\"?");
  EXPECT_EQ(reader.issues[1].hint, "");
}

TEST_F(FieldsTest, WholeNumbersAndListsThatHoldSomething) {
  FieldReader reader = read("a = 2.0\nb = 2.5\nc = []\nd = [1]\n");
  const auto integer = [&](std::string_view key) {
    return read_integer(reader, {&root, ""}, {.key = key, .least = 1, .most = 10});
  };
  EXPECT_EQ(integer("a"), 2);
  EXPECT_FALSE(integer("b"));
  EXPECT_FALSE(has_entries(reader, {&root, ""}, "c", ""));
  EXPECT_TRUE(has_entries(reader, {&root, ""}, "d", ""));
  ASSERT_EQ(reader.issues.size(), 2U);
  EXPECT_EQ(reader.issues[0].message, "b is 2.5; it must be a whole number from 1 to 10");
  EXPECT_EQ(reader.issues[1].message, "c is empty");
}

TEST_F(FieldsTest, SingleBracketsWhereAListIsMeant) {
  FieldReader reader = read("[room]\nname = \"a\"\n");
  EXPECT_TRUE(read_tables(reader, {&root, ""}, "room").empty());
  ASSERT_EQ(reader.issues.size(), 1U);
  EXPECT_EQ(reader.issues[0].hint, "write [[room]] with double brackets");
}

}  // namespace
}  // namespace houseleek
