// Modules changed one by one: moved, laid flat or raised, of another recipe, taken away.
#include "studies/edit_modules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "design/edit_tables.hpp"

namespace houseleek::studies {
namespace {

using report::Json;

/// Millimetres are the finest that anybody lays.
double rounded_m(double m) { return std::round(m * 1000.0) / 1000.0; }

std::string point_words(geometry::PointM at) { return fmt::format("[{}, {}]", rounded_m(at.x_m), rounded_m(at.y_m)); }

std::string places_words(const std::vector<geometry::PointM>& places) {
  std::string words;
  for (const geometry::PointM& at : places) words += (words.empty() ? "" : ", ") + point_words(at);
  return fmt::format("[{}]", words);
}

geometry::PointM corner_of(const design::ModulePlace& place) {
  return {place.rectangle.left_m, place.rectangle.bottom_m};
}

/// What is asked, read and checked.
struct Wish {
  std::set<std::size_t> modules;
  std::optional<geometry::PointM> shift_m;
  std::optional<std::string> recipe;
  std::optional<std::string> placed;
  bool is_removed = false;
};

Result<Wish> read_wish(const design::Design& design, const Json& change) {
  Wish wish;
  const Json& modules = change.at("modules");
  if (!modules.is_array() || modules.empty()) {
    return Unexpected{
        {inconsistent_issue("modules", modules.dump(), "a list of modules is wanted", "numbers count from 0")}};
  }
  for (const Json& one : modules) {
    if (!one.is_number_unsigned() || one.get<std::size_t>() >= design.modules.size()) {
      return Unexpected{
          {inconsistent_issue("modules", one.dump(),
                              fmt::format("there is no module {}; the roof has {}", one.dump(), design.modules.size()),
                              "numbers count from 0")}};
    }
    wish.modules.insert(one.get<std::size_t>());
  }
  if (const auto shift = change.find("shift_m"); shift != change.end()) {
    const bool is_pair = shift->is_array() && shift->size() == 2 && (*shift)[0].is_number() && (*shift)[1].is_number();
    if (!is_pair)
      return Unexpected{{inconsistent_issue("shift_m", shift->dump(), "two numbers in metres are wanted", "")}};
    wish.shift_m = geometry::PointM{(*shift)[0].get<double>(), (*shift)[1].get<double>()};
  }
  if (const auto recipe = change.find("recipe"); recipe != change.end()) {
    if (!recipe->is_string())
      return Unexpected{{inconsistent_issue("recipe", recipe->dump(), "the name of a recipe is wanted", "")}};
    wish.recipe = recipe->get<std::string>();
  }
  if (const auto placed = change.find("placed"); placed != change.end()) {
    if (*placed != "flat" && *placed != "raised") {
      return Unexpected{{inconsistent_issue("placed", placed->dump(), "flat or raised is wanted", "")}};
    }
    wish.placed = placed->get<std::string>();
  }
  const auto removed = change.find("remove");
  wish.is_removed = removed != change.end() && *removed == true;
  if (!wish.shift_m && !wish.recipe && !wish.placed && !wish.is_removed) {
    return Unexpected{
        {inconsistent_issue("modules", "", "nothing is asked of them", "shift_m, recipe, placed or remove")}};
  }
  return wish;
}

/// The keys of a patch that its own text has, without those that say where its modules lie and what now changes.
std::string copied_keys(const design::RawDesign& description, const TomlNode& patch, const Wish& wish) {
  std::string lines;
  const design::RawDesign& d = description;
  for (const TomlMember& member : patch.members) {
    const std::string& key = member.key;
    if (key == "at" || key == "columns" || key == "rows" || key == "origin" || key == "spacing_mm") continue;
    if ((key == "recipe" && wish.recipe) || (key == "placed" && (wish.placed || wish.recipe))) continue;
    lines += fmt::format("{} = {}\n", key, design::written_value(d, member.node));
  }
  return lines;
}

}  // namespace

Result<std::vector<design::TextChange>> edit_modules(const design::RawDesign& description, const design::Design& design,
                                                     const Json& change) {
  const Result<Wish> read = read_wish(design, change);
  if (!read) return Unexpected{read.error()};
  const Wish& wish = read.value();
  const TomlNode* patches = find_member(description.root, "patch");
  std::map<int, std::vector<std::size_t>> chosen;  // by patch
  for (const std::size_t module : wish.modules) chosen[design.modules[module].patch].push_back(module);

  std::vector<design::TextChange> changes;
  std::string added;
  for (const auto& [of_patch, modules] : chosen) {
    const int patch_index = of_patch;  // clang 14 captures no structured binding
    const TomlNode& table = patches->items[static_cast<std::size_t>(patch_index)];
    const design::Patch& patch = design.patches[static_cast<std::size_t>(patch_index)];
    const bool is_whole = modules.size() == design::module_count(patch);
    const auto refuse = [&] {
      return Unexpected{{inconsistent_issue("modules", fmt::format("patch[{}]", patch_index),
                                            "this patch is written in a way that cannot be changed here",
                                            "change it in the file itself")}};
    };
    const bool is_own_patch = wish.recipe || wish.placed;
    // A block that is shifted as a whole stays a block.
    if (is_whole && wish.shift_m && patch.places.empty()) {
      changes.push_back(design::change_key(
          description, table, "origin",
          point_words({patch.origin.x_m + wish.shift_m->x_m, patch.origin.y_m + wish.shift_m->y_m})));
      continue;
    }
    if (is_whole && wish.is_removed) {
      const std::optional<design::TextChange> gone = design::remove_table(description, table);
      if (!gone) return refuse();
      changes.push_back(*gone);
      continue;
    }
    if (is_whole && is_own_patch) {
      if (wish.recipe) {
        changes.push_back(design::change_key(description, table, "recipe", design::toml_text_from(*wish.recipe)));
      }
      if (wish.placed) {
        changes.push_back(design::change_key(description, table, "placed", design::toml_text_from(*wish.placed)));
      }
      continue;
    }
    std::vector<geometry::PointM> left;
    std::vector<geometry::PointM> taken;
    for (std::size_t i = 0; i < design.modules.size(); ++i) {
      const design::ModulePlace& place = design.modules[i];
      if (place.patch != patch_index) continue;
      geometry::PointM at = corner_of(place);
      const bool is_chosen = wish.modules.count(i) > 0;
      if (is_chosen && wish.shift_m) at = {at.x_m + wish.shift_m->x_m, at.y_m + wish.shift_m->y_m};
      if (is_chosen && wish.is_removed) continue;
      (is_chosen && is_own_patch ? taken : left).push_back(at);
    }
    // The places in the stead of the block's keys, one change a key so that comments of others live on.
    if (patch.places.empty()) {
      for (const std::string_view key : {"columns", "rows", "spacing_mm"}) {
        if (const auto gone = design::remove_key(description, table, key)) changes.push_back(*gone);
      }
      const std::optional<design::TextChange> renamed =
          design::replace_key(description, table, "origin", fmt::format("at = {}", places_words(left)));
      if (!renamed) return refuse();
      changes.push_back(*renamed);
    } else {
      changes.push_back(design::change_key(description, table, "at", places_words(left)));
    }
    if (taken.empty()) continue;
    added += fmt::format("[[patch]]\nat = {}\n{}", places_words(taken), copied_keys(description, table, wish));
    if (wish.recipe) added += fmt::format("recipe = {}\n", design::toml_text_from(*wish.recipe));
    if (wish.placed) added += fmt::format("placed = {}\n", design::toml_text_from(*wish.placed));
  }
  if (!added.empty()) changes.push_back(design::append_tables(description, added));
  return changes;
}

}  // namespace houseleek::studies
