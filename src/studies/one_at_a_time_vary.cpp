// A description with other figures at some places, read again through the one door.
#include "studies/one_at_a_time_vary.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "studies/raw_edit.hpp"

namespace houseleek::studies {
namespace {

constexpr std::string_view material_prefix = "material[";

/// The table that the path leads to before its last part; tables on the way are made, entries of lists are not.
TomlNode& table_at(TomlNode& root, std::string_view path) {
  TomlNode* node = &root;
  while (!path.empty()) {
    const std::string_view step = path.substr(0, path.find('.'));
    path = step.size() == path.size() ? "" : path.substr(step.size() + 1);
    const std::string_view key = step.substr(0, step.find('['));
    TomlNode* member = member_of(*node, key);
    if (key.size() == step.size()) {
      node = member == nullptr ? &add_member(*node, key, TomlKind::table) : member;
      continue;
    }
    expects(member != nullptr, "a list that is there");
    std::size_t index = 0;
    for (const char digit : step.substr(key.size() + 1, step.size() - key.size() - 2)) {
      index = 10 * index + static_cast<std::size_t>(digit - '0');
    }
    expects(index < member->items.size(), "an entry of the list");
    node = &member->items[index];
  }
  return *node;
}

/// Heat stored in kJ/(m2 K), as read_room notes it for a room that does not say its class.
std::string mass_class(double kj_per_m2_k) {
  struct Class {
    std::string_view word;
    double kj_per_m2_k;
  };
  constexpr Class classes[] = {
      {"very_light", 80.0}, {"light", 110.0}, {"medium", 165.0}, {"heavy", 260.0}, {"very_heavy", 370.0}};
  for (const Class& one : classes) {
    if (one.kj_per_m2_k == kj_per_m2_k) return std::string(one.word);
  }
  expects(false, "the heat of a class");
  return "";
}

/// A finish by name has no figures to be replaced: all of them are written out.
void write_out_finish(TomlNode& root, const design::Finish& finish) {
  TomlNode& roof = table_at(root, "roof");
  TomlNode* node = member_of(roof, "finish");
  if (node != nullptr && node->kind == TomlKind::table) return;
  if (node == nullptr) node = &add_member(roof, "finish", TomlKind::table);
  node->kind = TomlKind::table;
  node->text.clear();
  set_number(*node, "albedo", finish.albedo);
  set_number(*node, "emissivity", finish.emissivity);
}

void place(TomlNode& root, const design::Design& read, const PlacedFigure& figure) {
  const std::string_view path = figure.path;
  if (path.starts_with(material_prefix)) {
    const std::size_t close = path.rfind("].");
    expects(close != std::string_view::npos, "a property of a material");
    set_number(material_table(root, path.substr(material_prefix.size(), close - material_prefix.size())),
               path.substr(close + 2), figure.value);
    return;
  }
  if (path.starts_with("roof.finish.")) write_out_finish(root, read.roof.finish);
  const std::size_t dot = path.rfind('.');
  expects(dot != std::string_view::npos, "a field of a table");
  TomlNode& table = table_at(root, path.substr(0, dot));
  const std::string_view key = path.substr(dot + 1);
  if (key == "thermal_mass") {
    set_text(table, key, mass_class(figure.value));
  } else {
    set_number(table, key, figure.value);
  }
}

}  // namespace

Result<design::ValidDesign> read_varied(const design::RawDesign& description, const design::ValidDesign& read,
                                        const catalogue::Catalogue& catalogue, std::span<const PlacedFigure> figures) {
  design::RawDesign varied = description;
  for (const PlacedFigure& figure : figures) place(varied.root, *read, figure);
  Result<design::ValidDesign> again = design::validate_design(varied, catalogue);
  if (!again) return again;
  for (const PlacedFigure& figure : figures) {
    const auto is_still_assumed = [&figure](const design::Assumption& one) { return one.path == figure.path; };
    const std::vector<design::Assumption>& assumed = again.value().assumed();
    expects(std::none_of(assumed.begin(), assumed.end(), is_still_assumed),
            "a figure that is read where it is written");
  }
  return again;
}

}  // namespace houseleek::studies
