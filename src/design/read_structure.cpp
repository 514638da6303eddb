// [roof.structure], [roof.bearing], [roof.actions], [roof.clear_strips] and [wind].
#include <fmt/format.h>

#include "design/load_limits.hpp"
#include "design/read_tables.hpp"

namespace houseleek::design {
namespace {

constexpr std::pair<std::string_view, DeckKind> kind_words[] = {{"one_way_slab", DeckKind::one_way_slab},
                                                                {"two_way_slab", DeckKind::two_way_slab},
                                                                {"joists", DeckKind::joists},
                                                                {"hollow_pots", DeckKind::hollow_pots},
                                                                {"beams_and_blocks", DeckKind::beams_and_blocks},
                                                                {"stone_on_beams", DeckKind::stone_on_beams},
                                                                {"boards", DeckKind::boards},
                                                                {"profiled_sheet", DeckKind::profiled_sheet}};
constexpr std::pair<std::string_view, SpanAxis> axis_words[] = {{"x", SpanAxis::x}, {"y", SpanAxis::y}};
constexpr std::pair<std::string_view, BeamEnds> end_words[] = {{"resting", BeamEnds::resting},
                                                               {"built_in", BeamEnds::built_in}};
constexpr std::pair<std::string_view, Terrain> terrain_words[] = {{"sea", Terrain::sea},
                                                                  {"flat", Terrain::flat},
                                                                  {"farmland", Terrain::farmland},
                                                                  {"suburb", Terrain::suburb},
                                                                  {"town", Terrain::town}};

/// At least two numbers that rise by a span each.
std::vector<double> read_supports(DesignReader& reader, const TableView& table, std::string_view key) {
  const std::string path = path_from(table, key);
  if (!has_field(reader.fields, table, key,
                 fmt::format("add {} = [0, 4.2, 8.4]: where walls or beams carry the deck, in metres", key))) {
    return {};
  }
  const TomlNode& node = *find_member(*table.node, key);
  if (node.kind != TomlKind::array || node.items.size() < 2 || node.items.size() > limits::most_supports) {
    add_issue(reader.fields, IssueCode::wrong_type, node, path, fmt::format("2 to {} numbers", limits::most_supports),
              fmt::format("{} must be a list of 2 to {} numbers in metres", path, limits::most_supports), "");
    return {};
  }
  std::vector<double> supports_m;
  for (std::size_t i = 0; i < node.items.size(); ++i) {
    const std::string item_path = path_from(table, key, i);
    const std::optional<double> at_m = checked_number(reader.fields, node.items[i], item_path, limits::support_at_m);
    if (!at_m) return {};
    if (!supports_m.empty()) {
      const double span_m = *at_m - supports_m.back();
      if (span_m < limits::least_span_m || span_m > limits::most_span_m) {
        add_issue(reader.fields, IssueCode::inconsistent, node.items[i], item_path,
                  fmt::format("{} to {} m after the one before", limits::least_span_m, limits::most_span_m),
                  fmt::format("{} makes a span of {:.4g} m; spans are from {} to {} m", item_path, span_m,
                              limits::least_span_m, limits::most_span_m),
                  "give the supports in rising order, in metres on the plan");
        return {};
      }
    }
    supports_m.push_back(*at_m);
  }
  return supports_m;
}

Joists read_joists(DesignReader& reader, const TableView& table) {
  constexpr std::string_view known[] = {"spacing_mm", "first_at_m",        "width_mm",
                                        "height_mm",  "modulus_n_per_mm2", "service_class"};
  check_keys(reader.fields, table, known);
  Joists joists;
  joists.spacing_mm = read_required_number(reader.fields, table, limits::joist_spacing_mm);
  joists.first_at_m = read_required_number(reader.fields, table, limits::joist_first_at_m);
  joists.width_mm = read_number(reader.fields, table, limits::joist_width_mm);
  joists.height_mm = read_number(reader.fields, table, limits::joist_height_mm);
  joists.modulus_n_per_mm2 = read_number(reader.fields, table, limits::modulus_n_per_mm2);
  if (const auto given = read_integer(reader.fields, table, limits::service_class)) {
    joists.service_class = static_cast<int>(*given);
  }
  return joists;
}

bool has_model(DeckKind kind) {
  return kind == DeckKind::one_way_slab || kind == DeckKind::two_way_slab || kind == DeckKind::joists;
}

/// A key that this kind of deck makes no use of.
void refuse_key(DesignReader& reader, const TableView& table, std::string_view key, std::string_view only_for) {
  const TomlNode* node = find_member(*table.node, key);
  if (node == nullptr) return;
  const std::string path = path_from(table, key);
  add_issue(reader.fields, IssueCode::inconsistent, *node, path, fmt::format("only with kind = {}", only_for),
            fmt::format("{} belongs to kind = {} only", path, only_for), "");
}

}  // namespace

std::optional<Structure> read_structure(DesignReader& reader, const TableView& roof) {
  const std::optional<TableView> table = read_table(reader.fields, roof, "structure");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"kind", "spans_along", "supports_at_m", "cross_supports_at_m", "ends", "joist"};
  check_keys(reader.fields, *table, known);
  Structure structure;
  if (!has_field(reader.fields, *table, "kind",
                 "add kind = \"one_way_slab\", \"joists\" or another word of the list")) {
    return structure;
  }
  const std::optional<DeckKind> kind = read_choice<DeckKind>(reader.fields, *table, "kind", kind_words);
  if (!kind) return structure;
  structure.kind = *kind;
  structure.ends = read_choice<BeamEnds>(reader.fields, *table, "ends", end_words).value_or(BeamEnds::resting);
  const bool is_two_way = *kind == DeckKind::two_way_slab;
  if (!is_two_way) refuse_key(reader, *table, "cross_supports_at_m", "\"two_way_slab\"");
  if (*kind != DeckKind::joists) refuse_key(reader, *table, "joist", "\"joists\"");
  if (is_two_way) refuse_key(reader, *table, "ends", "\"one_way_slab\" or \"joists\"");
  const bool has_axis = has_model(*kind) && !is_two_way;
  if (has_axis && has_field(reader.fields, *table, "spans_along", "add spans_along = \"x\" or \"y\"")) {
    structure.spans_along =
        read_choice<SpanAxis>(reader.fields, *table, "spans_along", axis_words).value_or(SpanAxis::x);
  }
  if (!has_axis) refuse_key(reader, *table, "spans_along", "\"one_way_slab\" or \"joists\"");
  if (has_model(*kind)) {
    structure.supports_at_m = read_supports(reader, *table, "supports_at_m");
  } else {
    refuse_key(reader, *table, "supports_at_m", "\"one_way_slab\", \"two_way_slab\" or \"joists\"");
  }
  if (is_two_way) structure.cross_supports_at_m = read_supports(reader, *table, "cross_supports_at_m");
  if (*kind == DeckKind::joists &&
      has_field(reader.fields, *table, "joist", "add [roof.structure.joist] with spacing_mm and first_at_m")) {
    if (const auto joist = read_table(reader.fields, *table, "joist")) structure.joists = read_joists(reader, *joist);
  }
  return structure;
}

Bearing read_bearing(DesignReader& reader, const TableView& roof) {
  Bearing bearing;
  const std::optional<TableView> table = read_table(reader.fields, roof, "bearing");
  if (!table) return bearing;
  constexpr std::string_view known[] = {"membrane_kpa", "insulation_kpa", "who"};
  check_keys(reader.fields, *table, known);
  bearing.membrane_kpa = read_number(reader.fields, *table, limits::with_key(limits::bearing_kpa, "membrane_kpa"));
  bearing.insulation_kpa = read_number(reader.fields, *table, limits::with_key(limits::bearing_kpa, "insulation_kpa"));
  bearing.who = read_text(reader.fields, *table, "who").value_or("");
  return bearing;
}

Actions read_actions(DesignReader& reader, const TableView& roof) {
  Actions actions;
  const std::optional<TableView> table = read_table(reader.fields, roof, "actions");
  if (!table) return actions;
  constexpr std::string_view known[] = {"ground_snow_kn_per_m2", "snow_exposure", "hail_mm",
                                        "blocked_outlet_mm",     "stack_modules", "person_kn"};
  check_keys(reader.fields, *table, known);
  actions.ground_snow_kn_per_m2 = read_number(reader.fields, *table, limits::ground_snow_kn_per_m2);
  actions.snow_exposure = read_number(reader.fields, *table, limits::snow_exposure);
  actions.hail_mm = read_number(reader.fields, *table, limits::hail_mm);
  actions.blocked_outlet_mm = read_number(reader.fields, *table, limits::blocked_outlet_mm);
  if (const auto count = read_integer(reader.fields, *table, limits::stack_modules)) {
    actions.stack_modules = static_cast<int>(*count);
  }
  actions.person_kn = read_number(reader.fields, *table, limits::person_kn);
  return actions;
}

ClearStrips read_clear_strips(DesignReader& reader, const TableView& roof) {
  ClearStrips strips;
  const std::optional<TableView> table = read_table(reader.fields, roof, "clear_strips");
  if (!table) return strips;
  constexpr std::string_view known[] = {"edge_mm", "opening_mm", "outlet_mm", "flue_mm", "equipment_mm", "wall_mm"};
  check_keys(reader.fields, *table, known);
  const auto width = [&](std::string_view key) {
    return read_number(reader.fields, *table, limits::with_key(limits::strip_mm, key));
  };
  strips.edge_mm = width("edge_mm");
  strips.opening_mm = width("opening_mm");
  strips.outlet_mm = width("outlet_mm");
  strips.flue_mm = width("flue_mm");
  strips.equipment_mm = width("equipment_mm");
  strips.wall_mm = width("wall_mm");
  return strips;
}

std::optional<Wind> read_wind(DesignReader& reader, const TableView& root) {
  const std::optional<TableView> table = read_table(reader.fields, root, "wind");
  if (!table) return std::nullopt;
  constexpr std::string_view known[] = {"roof_height_m", "basic_wind_m_per_s", "terrain"};
  check_keys(reader.fields, *table, known);
  Wind wind;
  wind.roof_height_m = read_number(reader.fields, *table, limits::roof_height_m);
  wind.basic_wind_m_per_s = read_number(reader.fields, *table, limits::basic_wind_m_per_s);
  wind.terrain = read_choice<Terrain>(reader.fields, *table, "terrain", terrain_words);
  return wind;
}

}  // namespace houseleek::design
