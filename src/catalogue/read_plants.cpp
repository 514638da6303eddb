// Plants and their groups, as the catalogue writes them.
#include "catalogue/read_plants.hpp"

#include "catalogue/columns.hpp"
#include "catalogue/properties.hpp"

namespace houseleek::catalogue {
namespace {

bool is_country(std::string_view code) {
  const auto is_capital = [](char c) { return c >= 'A' && c <= 'Z'; };
  return code.size() == 2 && is_capital(code[0]) && is_capital(code[1]);
}

/// A word that must be there.
template <class E>
E read_required_choice(FieldReader& reader, const TableView& table, std::string_view key,
                       std::span<const std::pair<std::string_view, E>> choices) {
  std::string known;
  for (const auto& choice : choices) known += (known.empty() ? "" : ", ") + std::string(choice.first);
  if (!has_field(reader, table, key, "one of " + known)) return choices.front().second;
  return read_choice<E>(reader, table, key, choices).value_or(choices.front().second);
}

InvasiveListing read_listing(FieldReader& reader, const TableView& table, const FigureContext& context) {
  check_keys(reader, table, invasive_keys());
  InvasiveListing listing;
  listing.country = read_required_text(reader, table, "country", "two letters of ISO 3166, or EU");
  if (!listing.country.empty() && !is_country(listing.country)) {
    const std::string path = path_from(table, "country");
    add_issue(reader, IssueCode::out_of_range, member_or_table(table, "country"), path, "two capital letters",
              fmt::format("{} is \"{}\"; it must be two capital letters", path, listing.country),
              "two letters of ISO 3166, or EU");
  }
  listing.region = read_text(reader, table, "region").value_or("");
  listing.list = read_required_text(reader, table, "list", "name the law or the list");
  listing.new_plant = read_required_choice<NewPlant>(reader, table, "new_plant", new_plant_words);
  listing.already_here = read_required_choice<AlreadyHere>(reader, table, "already_here", already_here_words);
  listing.from_wild = read_required_choice<FromWild>(reader, table, "from_wild", from_wild_words);
  listing.from = read_origin(reader, table, context);
  return listing;
}

std::optional<Judgement> read_judgement(FieldReader& reader, const TableView& table, std::string_view key,
                                        const FigureContext& context) {
  if (!has_field(reader, table, key, "the choice of plants needs it")) return std::nullopt;
  const std::optional<TableView> figure = read_table(reader, table, key);
  if (!figure) return std::nullopt;
  constexpr std::string_view known[] = {"tolerance", "source", "certainty"};
  check_keys(reader, *figure, known);
  Judgement judgement;
  judgement.tolerance = read_required_choice<Tolerance>(reader, *figure, "tolerance", tolerance_words);
  judgement.from = read_origin(reader, *figure, context);
  return judgement;
}

void read_bloom(FieldReader& reader, const TableView& table, Plant& plant) {
  const NumberRule rule{
      .key = "bloom_months", .least = 1, .most = 12, .hint = "the first and the last month north of the equator"};
  const std::optional<std::vector<double>> months = read_numbers(reader, table, rule, 2);
  if (!months) return;
  const TomlNode& list = *find_member(*table.node, rule.key);
  for (std::size_t i = 0; i < months->size(); ++i) {
    if (list.items[i].kind == TomlKind::integer) continue;
    const std::string path = path_from(table, rule.key, i);
    add_issue(reader, IssueCode::wrong_type, list.items[i], path, "a whole number",
              fmt::format("{} is {}; it must be a whole number", path, written_text(reader, list.items[i])),
              std::string(rule.hint));
  }
  plant.bloom_first_month = static_cast<int>(months->front());
  plant.bloom_last_month = static_cast<int>(months->back());
}

void read_said(FieldReader& reader, const TableView& table, const FigureContext& context, Plant& plant) {
  for (const std::string_view key : {"sun", "climates", "raised_from"}) {
    (void)has_entries(reader, table, key, "the choice of plants needs it");
  }
  plant.lifespan = read_required_choice<Lifespan>(reader, table, "lifespan", lifespan_words);
  plant.sun = read_words<Sun>(reader, table, "sun", sun_words);
  plant.climates = read_words<Climate>(reader, table, "climates", climate_words);
  plant.carbon_way = read_required_choice<CarbonWay>(reader, table, "carbon_way", carbon_way_words);
  plant.salt_spray = read_judgement(reader, table, "salt_spray", context);
  plant.wind = read_judgement(reader, table, "wind", context);
  plant.raised_from = read_words<RaisedFrom>(reader, table, "raised_from", raised_from_words);
  plant.eaten = read_text(reader, table, "eaten").value_or("");
  const NumberRule bees{.key = "bee_worth", .least = 0, .most = 3};
  plant.bee_worth = static_cast<int>(read_integer(reader, table, bees).value_or(0));
  read_bloom(reader, table, plant);
  plant.hazards = read_words<Hazard>(reader, table, "hazards", hazard_words);
  plant.words_from = read_origin(reader, table, context);
}

}  // namespace

PlantGroup read_plant_group(FieldReader& reader, const TableView& table, const FigureContext& context) {
  check_keys(reader, table, group_keys());
  PlantGroup group;
  group.name = read_required_text(reader, table, "name", "add name = \"succulent\"");
  for (const FoliageProperty& property : foliage_properties()) {
    group.foliage.*property.figure = read_required_spread(reader, table, property.rule, context);
  }
  return group;
}

Plant read_plant(FieldReader& reader, const TableView& table, const FigureContext& context,
                 std::span<const PlantGroup> groups) {
  check_keys(reader, table, plant_keys());
  std::vector<std::string> group_names;
  for (const PlantGroup& group : groups) group_names.push_back(group.name);
  Plant plant;
  plant.name = read_required_text(reader, table, "name", "add name = \"Sedum album\"");
  plant.common_name = read_text(reader, table, "common_name").value_or("");
  plant.group = read_required_text(reader, table, "group", "add group = one of " + joined_names(group_names));
  const auto same = [&plant](const PlantGroup& group) { return group.name == plant.group; };
  const auto group = std::find_if(groups.begin(), groups.end(), same);
  if (group != groups.end()) {
    plant.foliage = group->foliage;
  } else if (!plant.group.empty()) {
    add_unknown_name(reader, member_or_table(table, "group"), path_from(table, "group"), "group of plants",
                     group_names);
  }
  for (const FoliageProperty& property : foliage_properties()) {
    if (const std::optional<Spread> own = read_spread(reader, table, property.rule, context)) {
      plant.foliage.*property.figure = *own;
    }
  }
  for (const PlantProperty& property : plant_properties()) {
    if (property.is_needed && !has_field(reader, table, property.rule.key, "every plant needs it")) continue;
    plant.*property.figure = read_spread(reader, table, property.rule, context);
  }
  if (plant.medium_depth_mm) plant.least_depth_mm = plant.medium_depth_mm->likely;
  read_said(reader, table, context, plant);
  for (const TableView& listing : read_tables(reader, table, "invasive")) {
    plant.invasive.push_back(read_listing(reader, listing, context));
  }
  return plant;
}

}  // namespace houseleek::catalogue
