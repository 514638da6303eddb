// Designs with something wrong: each is refused with every issue in its place, and nothing crashes.
#include <gtest/gtest.h>

#include <random>

#include "design/limits.hpp"
#include "design/parse.hpp"
#include "small_design.hpp"

namespace houseleek::design {
namespace {

using tests::shipped_catalogue;
using tests::shown;
using tests::small_with;
using tests::spelled_out_design_text;

struct Expected {
  int line;
  int column;
  IssueCode code;
  std::string path;
  std::string message;
};

struct Broken {
  const char* what;
  std::string text;
  std::vector<Expected> issues;
};

constexpr IssueCode missing = IssueCode::missing_field;
constexpr IssueCode unknown_field = IssueCode::unknown_field;
constexpr IssueCode wrong_type = IssueCode::wrong_type;
constexpr IssueCode range = IssueCode::out_of_range;
constexpr IssueCode name = IssueCode::unknown_name;
constexpr IssueCode inconsistent = IssueCode::inconsistent;

std::vector<Broken> broken_designs() {
  return {
      {"a key without its unit",
       small_with("thickness_mm = 60", "thickness = 60"),
       {{40, 1, missing, "recipe[0].layer[0].thickness_mm", "recipe[0].layer[0].thickness_mm is missing"},
        {43, 1, unknown_field, "recipe[0].layer[0].thickness", "recipe[0].layer[0].thickness is not known here"}}},
      {"negative thickness",
       small_with("thickness_mm = 150", "thickness_mm = -150"),
       {{19, 16, range, "roof.deck[1].thickness_mm",
         "roof.deck[1].thickness_mm is -150; it must be from 0.5 to 2000 mm"}}},
      {"metres where millimetres belong",
       small_with("thickness_mm = 150", "thickness_mm = 0.15"),
       {{19, 16, range, "roof.deck[1].thickness_mm",
         "roof.deck[1].thickness_mm is 0.15; it must be from 0.5 to 2000 mm"}}},
      {"self-crossing outline",
       small_with("[[0, 0], [6, 0], [6, 4], [0, 4]]", "[[0, 0], [6, 4], [6, 0], [0, 4]]"),
       {{13, 28, inconsistent, "roof.outline",
         "roof.outline crosses or touches itself: side (0, 0) to (6, 4) meets side (6, 0) to (0, 4)"}}},
      {"unknown material",
       small_with("\"expanded clay\"", "\"expandet clay\""),
       {{46, 12, name, "recipe[0].layer[1].material",
         "recipe[0].layer[1].material is \"expandet clay\"; no material of that name is known"}}},
      {"module off the roof",
       small_with("origin = [1.0, 0.5]", "origin = [4.5, 0.5]"),
       {{55, 10, inconsistent, "patch[0]",
         "patch[0]: 3 of 6 modules reach outside the roof; the first is in column 2, row 1"}}},
      {"module on the chimney",
       small_with("origin = [1.0, 0.5]", "origin = [0.5, 1.7]"),
       {{55, 10, inconsistent, "patch[0]",
         "patch[0]: 1 of 6 modules lie on the obstacle \"chimney\"; the first is in column 1, row 3"}}},
      {"wrong time zone",
       small_with("Europe/Athens", "Europe/Atens"),
       {{7, 13, name, "site.time_zone", "site.time_zone is \"Europe/Atens\"; no time zone of that name is known"}}},
      {"not a number",
       small_with("latitude_deg = 38.0", "latitude_deg = nan"),
       {{4, 16, range, "site.latitude_deg", "site.latitude_deg is nan; it must be a number from -90 to 90 degrees"}}},
      {"infinite",
       small_with("elevation_m = 100", "elevation_m = inf"),
       {{6, 15, range, "site.elevation_m", "site.elevation_m is inf; it must be a number from -450 to 5500 m"}}},
      {"a 400 KB line",
       small_with("\"shed\"", "\"" + std::string(400000, 'x') + "\""),
       {{2, 16385, range, "", "the line is longer than 16384 bytes"}}},
      {"binary junk",
       std::string("\x7f"
                   "ELF\x02\x01\x01\0\0\0\0junk",
                   16),
       {{1, 1, IssueCode::syntax, "", "the file holds a control byte (0x7F); a design is plain text"}}},
      {"empty file", "", {{1, 1, missing, "", "the design is empty"}}},
      {"only blanks", " \n\t\r\n", {{1, 1, missing, "", "the design is empty"}}},
      {"a table cut short",
       small_with("[site]", "[site"),
       {{3, 6, IssueCode::syntax, "", "Error while parsing table header: expected ']', saw '\\n'"}}},
      {"the same key twice",
       small_with("columns = 2", "columns = 2\ncolumns = 3"),
       {{54, 11, IssueCode::syntax, "",
         "Error while parsing key-value pair: cannot redefine existing integer 'columns'"}}},
      {"text where a number belongs",
       small_with("area_m2 = 10", "area_m2 = \"10 m2\""),
       {{34, 11, wrong_type, "partition[0].area_m2",
         "partition[0].area_m2 is \"10 m2\"; it must be a number from 0.01 to 2000 m2"}}},
      {"eleven months",
       small_with("[13, 14, 16,", "[13, 14,"),
       {{9, 9, inconsistent, "climate.normals.max_c", "climate.normals.max_c has 11 entries; it must have 12"}}},
      {"colder by day than by night",
       small_with("[6, 6, 8,", "[16, 6, 8,"),
       {{10, 10, inconsistent, "climate.normals.min_c[0]",
         "climate.normals.min_c[0] is 16, above max_c of the same month (13)"}}},
      {"a table forgotten",
       small_with("[climate.normals]\n", "[roof.x]\n"),
       {{1, 1, missing, "climate", "climate is missing"}, {8, 7, unknown_field, "roof.x", "roof.x is not known here"}}},
      {"an unknown table",
       small_with("[site]", "[place]"),
       {{1, 1, missing, "site", "site is missing"}, {3, 2, unknown_field, "place", "place is not known here"}}},
      {"rooms over each other",
       small_with("[[3, 0], [6, 0], [6, 4], [3, 4]]", "[[2, 0], [6, 0], [6, 4], [2, 4]]"),
       {{31, 11, inconsistent, "room[1].outline", "room[1].outline overlaps the room \"workshop\""}}},
      {"a room beyond the roof",
       small_with("[[3, 0], [6, 0], [6, 4], [3, 4]]", "[[3, 0], [7, 0], [7, 4], [3, 4]]"),
       {{31, 11, inconsistent, "room[1].outline", "room[1].outline reaches outside the roof"}}},
      {"two rooms of one name",
       small_with("name = \"store\"", "name = \"Workshop\""),
       {{30, 8, inconsistent, "room[1].name", "room[1].name is there twice: \"Workshop\""},
        {33, 24, name, "partition[0].between[1]",
         "partition[0].between[1] is \"store\"; no room of that name is known"}}},
      {"plants without a medium",
       small_with("role = \"medium\"", "role = \"core\""),
       {{48, 1, inconsistent, "recipe[0].plant",
         "recipe[0].plant: the recipe has plants but no layer with role \"medium\""}}},
      {"raised without spacers",
       small_with("spacer = { height_mm = 20 }", "placed = \"raised\""),
       {{35, 1, missing, "recipe[0].spacer", "recipe[0].spacer is missing"},
        {51, 1, inconsistent, "patch[0].placed", "patch[0].placed is \"raised\", but the recipe has no spacer"}}},
      {"a format of the future",
       small_with("format = 1", "format = 2"),
       {{1, 10, range, "format", "format is 2; this program reads up to 1"}}},
      {"half a module",
       small_with("columns = 2", "columns = 2.5"),
       {{53, 11, wrong_type, "patch[0].columns", "patch[0].columns is 2.5; it must be a whole number from 1 to 500"}}},
      {"a patch of a recipe that is not there",
       small_with("recipe = \"thin\"", "recipe = \"thick\""),
       {{52, 10, name, "patch[0].recipe", "patch[0].recipe is \"thick\"; no recipe of that name is known"}}},
      {"one room with single brackets",
       small_with("[[partition]]", "[partition]"),
       {{32, 1, wrong_type, "partition", "partition is one table; it must be a list of tables"}}},
  };
}

// The design that all of the above break by one change is itself valid.
TEST(BrokenDesign, TheDesignUnbrokenIsValid) { EXPECT_EQ(shown(spelled_out_design_text()), "valid"); }

TEST(BrokenDesign, EveryIssueHasItsPlaceCodeAndPath) {
  const catalogue::Catalogue catalogue = shipped_catalogue();
  const std::vector<Broken> all = broken_designs();
  EXPECT_GE(all.size(), 20U);
  for (const Broken& broken : all) {
    const Result<ValidDesign> read = read_design(broken.text, "roof.toml", catalogue);
    ASSERT_FALSE(read) << broken.what;
    const Issues& issues = read.error();
    EXPECT_EQ(issues.size(), broken.issues.size()) << broken.what << "\n" << text_from_issues(issues, broken.text);
    for (std::size_t i = 0; i < std::min(issues.size(), broken.issues.size()); ++i) {
      EXPECT_EQ(issues[i].line, broken.issues[i].line) << broken.what << ": " << issues[i].message;
      EXPECT_EQ(issues[i].column, broken.issues[i].column) << broken.what << ": " << issues[i].message;
      EXPECT_EQ(issues[i].code, broken.issues[i].code) << broken.what;
      EXPECT_EQ(issues[i].path, broken.issues[i].path) << broken.what;
      EXPECT_EQ(issues[i].message, broken.issues[i].message) << broken.what;
      EXPECT_EQ(issues[i].file, "roof.toml") << broken.what;
    }
  }
}

TEST(BrokenDesign, AllProblemsAtOnceInTheOrderOfTheFile) {
  std::string text = small_with("latitude_deg = 38.0", "latitude_deg = 138");
  text = tests::with_change(text, "Europe/Athens", "nowhere");
  text = tests::with_change(text, "thickness_mm = 30", "thickness_mm = 0.03");
  text = tests::with_change(text, "rows = 3", "rows = 30");
  EXPECT_EQ(
      shown(text),
      "roof.toml:4:16: error: site.latitude_deg is 138; it must be from -90 to 90 degrees\n"
      "    latitude_deg = 138\n"
      "                   ^\n"
      "  hint: degrees and decimals; north is positive, south negative\n"
      "roof.toml:7:13: error: site.time_zone is \"nowhere\"; no time zone of that name is known\n"
      "    time_zone = \"nowhere\"\n"
      "                ^\n"
      "  hint: names look like \"Europe/Athens\": continent and a large town\n"
      "roof.toml:47:16: error: recipe[0].layer[1].thickness_mm is 0.03; it must be from 3 to 1000 mm\n"
      "    thickness_mm = 0.03\n"
      "                   ^\n"
      "  hint: give millimetres, not metres; did you mean 30?\n"
      "roof.toml:55:10: error: patch[0]: 48 of 60 modules reach outside the roof; the first is in column 1, row 7\n"
      "    origin = [1.0, 0.5]\n"
      "             ^\n"
      "  hint: move the patch by its origin (lower left corner, in metres), or lay fewer columns or rows\n");
}

TEST(BrokenDesign, HintsNameWhatWasMeant) {
  EXPECT_EQ(
      shown(small_with("\"expanded clay\"", "\"expandet clay\"")),
      "roof.toml:46:12: error: recipe[0].layer[1].material is \"expandet clay\"; no material of that name is known\n"
      "    material = \"expandet clay\"\n"
      "               ^\n"
      "  hint: did you mean \"expanded clay\"?\n");
  EXPECT_EQ(shown(small_with("time_zone = \"Europe/Athens\"", "timezone = \"Europe/Athens\"")),
            "roof.toml:3:1: error: site.time_zone is missing\n"
            "    [site]\n"
            "    ^\n"
            "  hint: add time_zone = \"Europe/Athens\" or another name of that kind\n"
            "roof.toml:7:1: error: site.timezone is not known here\n"
            "    timezone = \"Europe/Athens\"\n"
            "    ^\n"
            "  hint: did you mean time_zone?\n");
  EXPECT_EQ(shown(small_with("area_m2 = 10", "area_m2 = \"10 m2\"")),
            "roof.toml:34:11: error: partition[0].area_m2 is \"10 m2\"; it must be a number from 0.01 to 2000 m2\n"
            "    area_m2 = \"10 m2\"\n"
            "              ^\n"
            "  hint: write the number alone, without quotes: area_m2 = 10\n");
}

TEST(BrokenDesign, PatchesMayNotOverlap) {
  const std::string again = "[[patch]]\nrecipe = \"thin\"\ncolumns = 1\nrows = 1\norigin = [1.9, 0.6]\n";
  const std::string text = spelled_out_design_text() + again;
  EXPECT_NE(shown(text).find("patch[1]: 1 of 1 modules overlap modules of patch[0]; the first is in column 1, row 1"),
            std::string::npos)
      << shown(text);
}

TEST(BrokenDesign, OutletsStayOpen) {
  const std::string text = small_with("at = [5.8, 3.8]", "at = [1.5, 0.7]");
  EXPECT_NE(shown(text).find("patch[0]: 1 of 6 modules lie on the outlet \"spout\"; the first is in column 1, row 1"),
            std::string::npos)
      << shown(text);
}

// Bytes changed, cut out, or repeated at random: refused with places, or valid; never an exception.
TEST(BrokenDesign, DamagedFilesAreAnsweredWithoutACrash) {
  const catalogue::Catalogue catalogue = shipped_catalogue();
  const std::string whole = tests::source_file_text("examples/01-terrace-house/roof.toml");
  std::mt19937_64 random(20240501);
  const auto below = [&random](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  constexpr std::string_view pieces[] = {"[",      "]",  "{",  "}",  "=",    "\"",    "'",    "'''",
                                         "\"\"\"", "\n", ".",  ",",  "-",    "1e999", "nan",  "0x",
                                         "\\",     "#",  "[[", "]]", "\xC3", "\x00",  "true", "1979-05-27"};
  int n_refused = 0;
  constexpr int n_trials = 300;
  for (int trial = 0; trial < n_trials; ++trial) {
    std::string text = whole;
    const std::size_t n_changes = 1 + below(3);
    for (std::size_t i = 0; i < n_changes; ++i) {
      const std::size_t at = below(text.size());
      const std::size_t length = below(30);
      switch (below(4)) {
        case 0:
          text.erase(at, length);
          break;
        case 1:
          text.insert(at, std::string(pieces[below(std::size(pieces))]));
          break;
        case 2:
          text[at] = static_cast<char>(random() & 0xFFU);
          break;
        default:
          text.insert(below(text.size()), text.substr(at, length));
      }
    }
    const Result<ValidDesign> read = read_design(text, "roof.toml", catalogue);
    if (read) continue;
    ++n_refused;
    ASSERT_FALSE(read.error().empty());
    for (const Issue& issue : read.error()) {
      EXPECT_GE(issue.line, 1) << issue.message;
      EXPECT_GE(issue.column, 1) << issue.message;
      EXPECT_FALSE(text_from_issue(issue, text).empty());
    }
  }
  EXPECT_GT(n_refused, n_trials / 4);
}

TEST(BrokenDesign, DeepKeysDoNotReachTheParser) {
  std::string text = "format = 1\n";
  for (int i = 0; i < 4000; ++i) text += "a.";
  text += "a = 1\n";
  const Result<RawDesign> read = parse_design(text, "roof.toml");
  ASSERT_FALSE(read);
  EXPECT_EQ(read.error().front().message, "tables or lists lie more than 16 levels deep");
}

TEST(BrokenDesign, TooManyModulesAreNotLaidOut) {
  const std::string text = small_with("columns = 2\nrows = 3", "columns = 500\nrows = 500");
  EXPECT_NE(shown(text).find("patch[0] brings the roof to 250000 modules; at most 5000 are read"), std::string::npos);
}

}  // namespace
}  // namespace houseleek::design
