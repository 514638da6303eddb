// Figures with their ranges, and materials, as both the catalogue and a design's own entries write them.
#include "catalogue/read_material.hpp"

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "catalogue/properties.hpp"

namespace houseleek::catalogue {
namespace {

constexpr std::pair<std::string_view, Certainty> certainty_words[] = {
    {"by_definition", Certainty::by_definition}, {"text_seen", Certainty::text_seen},
    {"recomputed", Certainty::recomputed},       {"from_memory", Certainty::from_memory},
    {"estimate", Certainty::estimate},           {"invented", Certainty::invented},
    {"own_figure", Certainty::own_figure}};

constexpr std::pair<std::string_view, WetRule> wet_rule_words[] = {
    {"none", WetRule::none}, {"mineral_medium", WetRule::mineral_medium}, {"fibrous", WetRule::fibrous}};

Spread exact_figure(double value) { return {value, value, value, "the owner of this design", Certainty::own_figure}; }

void read_origin(FieldReader& reader, const TableView& figure, const FigureContext& context, Spread& spread) {
  if (context.entry == Entry::own) {
    spread.source = read_text(reader, figure, "source").value_or("the owner of this design");
    spread.certainty =
        read_choice<Certainty>(reader, figure, "certainty", certainty_words).value_or(Certainty::own_figure);
    return;
  }
  const std::string word = read_required_text(reader, figure, "source", "name an entry of the table [source]");
  const auto found = context.sources.find(word);
  if (found != context.sources.end()) spread.source = found->second;
  if (found == context.sources.end() && !word.empty()) {
    std::vector<std::string> known;
    for (const auto& [key, reference] : context.sources) known.push_back(key);
    add_unknown_name(reader, *find_member(*figure.node, "source"), path_from(figure, "source"), "source", known);
  }
  if (has_field(reader, figure, "certainty", "say how the figure is known: text_seen, from_memory, estimate ...")) {
    spread.certainty =
        read_choice<Certainty>(reader, figure, "certainty", certainty_words).value_or(Certainty::estimate);
  }
}

struct NamedFigure {
  const char* key;
  const std::optional<Spread>* figure;
};

void check_needed(FieldReader& reader, const TableView& table, const Material& material) {
  std::vector<NamedFigure> needed;
  if (material.wet_rule != WetRule::none) {
    needed = {{"porosity_frac", &material.porosity_frac},
              {"saturated_water_frac", &material.saturated_water_frac},
              {"field_capacity_frac", &material.field_capacity_frac},
              {"wilting_water_frac", &material.wilting_water_frac},
              {"residual_water_frac", &material.residual_water_frac},
              {"saturated_conductivity_mm_per_h", &material.saturated_conductivity_mm_per_h},
              {"brooks_corey_exponent", &material.brooks_corey_exponent}};
  }
  if (material.wet_rule == WetRule::mineral_medium) {
    needed.push_back({"solids_conductivity_w_per_m_k", &material.solids_conductivity_w_per_m_k});
    needed.push_back({"cote_konrad_k", &material.cote_konrad_k});
  }
  for (const NamedFigure& one : needed) {
    // A figure that is there but wrong has its own issue.
    if (!*one.figure && find_member(*table.node, one.key) == nullptr) {
      (void)has_field(reader, table, one.key, "a material with a wet_rule takes up water and needs this figure");
    }
  }
}

/// Where to point: a figure may come from the entry's base.
const TomlNode& member_or_table(const TableView& table, std::string_view key) {
  const TomlNode* member = find_member(*table.node, key);
  return member == nullptr ? *table.node : *member;
}

/// Water figures and sun figures must follow from one another.
void check_order(FieldReader& reader, const TableView& table, const Material& material) {
  const NamedFigure rising[] = {{"residual_water_frac", &material.residual_water_frac},
                                {"wilting_water_frac", &material.wilting_water_frac},
                                {"field_capacity_frac", &material.field_capacity_frac},
                                {"saturated_water_frac", &material.saturated_water_frac},
                                {"porosity_frac", &material.porosity_frac}};
  const NamedFigure* below = nullptr;
  for (const NamedFigure& one : rising) {
    if (!*one.figure) continue;
    if (below != nullptr && (*below->figure)->likely > (*one.figure)->likely) {
      const std::string path = path_from(table, below->key);
      add_issue(reader, IssueCode::inconsistent, member_or_table(table, below->key), path,
                fmt::format("at most {}", one.key),
                fmt::format("{} ({}) is above {} ({})", path, (*below->figure)->likely, one.key, (*one.figure)->likely),
                "water rises from residual, wilting, field capacity and saturated to porosity");
    }
    below = &one;
  }
  if (material.wet_rule != WetRule::none && material.saturated_water_frac && material.residual_water_frac &&
      material.saturated_water_frac->likely <= material.residual_water_frac->likely) {
    const std::string path = path_from(table, "saturated_water_frac");
    add_issue(reader, IssueCode::inconsistent, member_or_table(table, "saturated_water_frac"), path,
              "above residual_water_frac", fmt::format("{} leaves no room for water above residual_water_frac", path),
              "");
  }
  if (material.solar_transmittance_frac && material.solar_reflectance_frac &&
      material.solar_transmittance_frac->likely + material.solar_reflectance_frac->likely > 1.0) {
    const std::string path = path_from(table, "solar_transmittance_frac");
    add_issue(reader, IssueCode::inconsistent, member_or_table(table, "solar_transmittance_frac"), path,
              "1 together with solar_reflectance_frac",
              fmt::format("{} and solar_reflectance_frac are more than 1 together", path), "");
  }
}

}  // namespace

FigureContext read_figure_context(FieldReader& reader, const TableView& root) {
  FigureContext context{.entry = Entry::catalogue, .sources = {}};
  if (!has_field(reader, root, "source", "add a table [source] with a short word for each reference")) return context;
  if (const std::optional<TableView> sources = read_table(reader, root, "source")) {
    for (const TomlMember& member : sources->node->members) {
      if (const std::optional<std::string> text = read_text(reader, *sources, member.key)) {
        context.sources.emplace(member.key, *text);
      }
    }
  }
  return context;
}

std::optional<Spread> read_spread(FieldReader& reader, const TableView& table, const NumberRule& rule,
                                  const FigureContext& context) {
  const TomlNode* node = find_member(*table.node, rule.key);
  if (node == nullptr) return std::nullopt;
  if (node->kind != TomlKind::table) {
    const std::optional<double> value = checked_number(reader, *node, path_from(table, rule.key), rule);
    if (!value) return std::nullopt;
    if (context.entry == Entry::catalogue) {
      add_issue(reader, IssueCode::wrong_type, *node, path_from(table, rule.key), "a table",
                fmt::format("{} is a number alone", path_from(table, rule.key)),
                "write { low = , likely = , high = , source = , certainty = }");
      return std::nullopt;
    }
    return exact_figure(*value);
  }
  const TableView figure{node, path_from(table, rule.key)};
  constexpr std::string_view known[] = {"low", "likely", "high", "source", "certainty"};
  check_keys(reader, figure, known);
  const auto part = [&](std::string_view key) {
    NumberRule part_rule = rule;
    part_rule.key = key;
    return read_number(reader, figure, part_rule);
  };
  if (!has_field(reader, figure, "likely", "add likely = the figure to use")) return std::nullopt;
  const std::size_t n_issues_before = reader.issues.size();
  const std::optional<double> likely = part("likely");
  const std::optional<double> low = part("low");
  const std::optional<double> high = part("high");
  if (context.entry == Entry::catalogue) {
    (void)has_field(reader, figure, "low", "a catalogue figure needs its range");
    (void)has_field(reader, figure, "high", "a catalogue figure needs its range");
  }
  Spread spread;
  read_origin(reader, figure, context, spread);
  if (reader.issues.size() != n_issues_before) return std::nullopt;
  spread.likely = *likely;
  spread.low = low.value_or(*likely);
  spread.high = high.value_or(*likely);
  if (spread.low > spread.likely || spread.likely > spread.high) {
    add_issue(reader, IssueCode::inconsistent, *node, figure.path, "low <= likely <= high",
              fmt::format("{} has low {}, likely {}, high {}; they must rise", figure.path, spread.low, spread.likely,
                          spread.high),
              "");
    return std::nullopt;
  }
  return spread;
}

Spread read_required_spread(FieldReader& reader, const TableView& table, const NumberRule& rule,
                            const FigureContext& context) {
  const std::string hint = fmt::format("add {} = a number {}", rule.key, text_from_rule(rule));
  if (!has_field(reader, table, rule.key, hint)) return exact_figure(rule.least);
  return read_spread(reader, table, rule, context).value_or(exact_figure(rule.least));
}

Material read_material(FieldReader& reader, const TableView& table, const FigureContext& context,
                       const Material* base) {
  std::vector<std::string_view> known = {"name", "form", "wet_rule"};
  for (const MaterialProperty& property : material_properties()) known.push_back(property.rule.key);
  check_keys(reader, table, known);
  Material material = base == nullptr ? Material{} : *base;
  material.is_own = context.entry == Entry::own;
  material.name = read_required_text(reader, table, "name", "add name = \"what recipes and decks call it\"");
  material.form = read_text(reader, table, "form").value_or(material.form);
  material.wet_rule = read_choice<WetRule>(reader, table, "wet_rule", wet_rule_words).value_or(material.wet_rule);
  for (const MaterialProperty& property : material_properties()) {
    const bool is_needed = base == nullptr && property.required != nullptr;
    const std::optional<Spread> figure = is_needed ? read_required_spread(reader, table, property.rule, context)
                                                   : read_spread(reader, table, property.rule, context);
    if (!figure) continue;
    if (property.required != nullptr) {
      material.*property.required = *figure;
    } else {
      material.*property.optional = *figure;
    }
  }
  check_needed(reader, table, material);
  check_order(reader, table, material);
  return material;
}

}  // namespace houseleek::catalogue
