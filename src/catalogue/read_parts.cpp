// Parts that are counted, as the catalogue writes them.
#include "catalogue/read_parts.hpp"

#include "catalogue/columns.hpp"
#include "catalogue/properties.hpp"

namespace houseleek::catalogue {
namespace {

/// What a container, spacer or tie must say to be of use.
void check_needed(FieldReader& reader, const TableView& table, PartUse use) {
  if (use == PartUse::container) {
    (void)has_field(reader, table, "volume_l", "a container needs its volume");
    (void)has_field(reader, table, "foot_area_cm2", "a container needs the area that it stands on");
  }
  if (use == PartUse::spacer) {
    (void)has_field(reader, table, "height_mm", "a spacer needs the height of the gap it makes");
    (void)has_field(reader, table, "foot_area_cm2", "a spacer needs the area that it stands on");
    (void)has_field(reader, table, "blocked_frac", "a spacer needs the share of the gap that it closes");
  }
  if (use == PartUse::spacer || use == PartUse::tie) {
    (void)has_field(reader, table, "pieces_per_module", "say how many one module needs");
  }
}

void check_lives(FieldReader& reader, const TableView& table, const Part& part) {
  const std::optional<Spread>& in_sun = part.service_life_in_sun_years;
  if (!in_sun || in_sun->likely <= part.service_life_years.likely) return;
  const std::string path = path_from(table, "service_life_in_sun_years");
  add_issue(
      reader, IssueCode::inconsistent, member_or_table(table, "service_life_in_sun_years"), path,
      "at most service_life_years",
      fmt::format("{} ({}) is above service_life_years ({})", path, in_sun->likely, part.service_life_years.likely),
      "");
}

}  // namespace

Part read_part(FieldReader& reader, const TableView& table, const FigureContext& context) {
  check_keys(reader, table, part_keys());
  Part part;
  part.name = read_required_text(reader, table, "name", "add name = \"wire tie\"");
  part.form = read_text(reader, table, "form").value_or("");
  if (has_field(reader, table, "use", "add use = \"tie\", \"spacer\", \"container\" or \"fixing\"")) {
    if (const std::optional<PartUse> use = read_choice<PartUse>(reader, table, "use", part_use_words)) {
      part.use = *use;
      check_needed(reader, table, *use);
    }
  }
  if (has_field(reader, table, "family", "say what it is made of: metal, wood, polyethylene ...")) {
    part.family = read_choice<Family>(reader, table, "family", family_words);
  }
  part.hazards = read_words<Hazard>(reader, table, "hazards", hazard_words);
  part.near_food = read_choice<NearFood>(reader, table, "near_food", near_food_words);
  part.words_from = read_origin(reader, table, context);
  for (const PartProperty& property : part_properties()) {
    if (property.required != nullptr) {
      part.*property.required = read_required_spread(reader, table, property.rule, context);
    } else {
      part.*property.optional = read_spread(reader, table, property.rule, context);
    }
  }
  check_lives(reader, table, part);
  return part;
}

}  // namespace houseleek::catalogue
