// Whole tables of a description taken out, put in and moved: every other byte stays.
#include "design/edit_tables.hpp"

#include <gtest/gtest.h>

namespace houseleek::design {
namespace {

constexpr const char* text = R"(# head
[[recipe]]
name = "a"  # the first
[[recipe.layer]]
role = "medium"
thickness_mm = 50  # why
# of the core
[[recipe.layer]]
role = "core"
[recipe.watering]
hour = 7

[[recipe]]
name = "b"
layer = [ { role = "medium" } ]
spacer = { height_mm = 30, edges = "open" }
)";

RawDesign described() { return parse_design(text, "roof.toml").value(); }

std::string with(const RawDesign& description, const std::optional<TextChange>& change) {
  EXPECT_TRUE(change.has_value());
  return change ? with_changes(description.text, {*change}) : "";
}

TEST(EditTables, PathsAreReadOrRefused) {
  const auto path = read_path("recipe[12].layer[0].thickness_mm");
  ASSERT_TRUE(path.has_value());
  ASSERT_EQ(path->size(), 3U);
  EXPECT_EQ(path->front().key, "recipe");
  EXPECT_EQ(path->front().index, 12U);
  EXPECT_EQ(path->back().key, "thickness_mm");
  EXPECT_FALSE(path->back().index.has_value());
  for (const char* wrong : {"", ".", "a.", "a..b", "a[", "a[]", "a[x]", "a[1", "a]1[", "a[1]b", "A", "a b", "a[-1]",
                            "a[99999999999999999999]", "a\n"}) {
    EXPECT_FALSE(read_path(wrong).has_value()) << wrong;
  }
}

TEST(EditTables, ATableIsTakenOutWithAllThatBelongsToIt) {
  const RawDesign description = described();
  const std::string layer =
      with(description, remove_table(description, *find_node(description.root, *read_path("recipe[0].layer[0]"))));
  EXPECT_EQ(layer.find("thickness_mm"), std::string::npos);
  EXPECT_NE(layer.find("# of the core\n[[recipe.layer]]\nrole = \"core\""), std::string::npos);
  const std::string recipe =
      with(description, remove_table(description, *find_node(description.root, *read_path("recipe[0]"))));
  EXPECT_EQ(recipe,
            "# head\n\n[[recipe]]\nname = \"b\"\nlayer = [ { role = \"medium\" } ]\nspacer = { height_mm = 30, edges = "
            "\"open\" }\n");
  // An item in brackets has no header of its own.
  EXPECT_FALSE(remove_table(description, *find_node(description.root, *read_path("recipe[1].layer[0]"))).has_value());
}

TEST(EditTables, ATableIsPutInBeforeBehindAndWhereThereWasNone) {
  const RawDesign description = described();
  const auto layers = *read_path("recipe[0].layer");
  const std::string before = with(description, insert_table(description, layers, 1, "role = \"filter\""));
  EXPECT_NE(before.find("# of the core\n[[recipe.layer]]\nrole = \"filter\"\n[[recipe.layer]]\nrole = \"core\"\n"),
            std::string::npos);
  const std::string behind = with(description, insert_table(description, layers, 9, "role = \"sheet\"\n"));
  EXPECT_NE(behind.find("role = \"core\"\n[[recipe.layer]]\nrole = \"sheet\"\n[recipe.watering]"), std::string::npos);
  const std::string first =
      with(description, insert_table(description, *read_path("recipe[0].plant"), 0, "name = \"x\""));
  EXPECT_NE(first.find("hour = 7\n[[recipe.plant]]\nname = \"x\"\n\n[[recipe]]\nname = \"b\""), std::string::npos);
  const std::string root = with(description, insert_table(description, *read_path("patch"), 0, "recipe = \"a\""));
  EXPECT_EQ(root, std::string(text) + "\n[[patch]]\nrecipe = \"a\"\n");
  EXPECT_FALSE(insert_table(description, *read_path("recipe[1].layer"), 0, "x = 1").has_value());
  EXPECT_FALSE(insert_table(description, *read_path("recipe[7].layer"), 0, "x = 1").has_value());
}

TEST(EditTables, ATableIsMovedWithItsWords) {
  const RawDesign description = described();
  const auto layers = *read_path("recipe[0].layer");
  const auto down = move_table(description, layers, 0, 1);
  ASSERT_TRUE(down.has_value());
  const std::string moved = with_changes(description.text, *down);
  EXPECT_NE(
      moved.find("role = \"core\"\n[[recipe.layer]]\nrole = \"medium\"\nthickness_mm = 50  # why\n[recipe.watering]"),
      std::string::npos);
  EXPECT_EQ(moved.size(), std::string(text).size());
  const RawDesign again = parse_design(moved, "roof.toml").value();
  const auto up = move_table(again, layers, 1, 0);
  ASSERT_TRUE(up.has_value());
  EXPECT_EQ(find_node(parse_design(with_changes(again.text, *up), "roof.toml").value().root,
                      *read_path("recipe[0].layer[0].role"))
                ->text,
            "medium");
  EXPECT_FALSE(move_table(description, layers, 0, 2).has_value());
}

TEST(EditTables, AKeyIsTakenOutOrReplaced) {
  const RawDesign description = described();
  const TomlNode& layer = *find_node(description.root, *read_path("recipe[0].layer[0]"));
  const std::string gone = with(description, remove_key(description, layer, "thickness_mm"));
  EXPECT_NE(gone.find("role = \"medium\"\n# of the core"), std::string::npos);
  const TomlNode& spacer = *find_node(description.root, *read_path("recipe[1].spacer"));
  EXPECT_NE(with(description, remove_key(description, spacer, "height_mm")).find("spacer = { edges = \"open\" }"),
            std::string::npos);
  EXPECT_NE(with(description, remove_key(description, spacer, "edges")).find("spacer = { height_mm = 30 }"),
            std::string::npos);
  EXPECT_FALSE(remove_key(description, layer, "role_of_another").has_value());
  const std::string other = with(description, replace_key(description, layer, "thickness_mm", "at = [1, 2]"));
  EXPECT_NE(other.find("at = [1, 2]  # why\n"), std::string::npos);
  EXPECT_EQ(written_value(description, spacer), "{ height_mm = 30, edges = \"open\" }");
}

}  // namespace
}  // namespace houseleek::design
