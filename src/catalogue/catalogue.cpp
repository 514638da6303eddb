// The catalogue: materials, parts, plants, decks, prices and cautions, read from data files that anyone may edit.
#include "catalogue/catalogue.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/nearest_name.hpp"
#include "base/toml_fields.hpp"
#include "catalogue/read_material.hpp"
#include "catalogue/read_parts.hpp"
#include "catalogue/read_plants.hpp"
#include "catalogue/read_prices.hpp"

namespace houseleek::catalogue {
namespace {

// The largest file is about half a megabyte; a person may double it a few times before it is surely another file.
constexpr TomlLimits catalogue_limits{.max_bytes = 4'000'000, .max_line_bytes = 16384, .max_depth = 16};

template <class T>
const T* find_by_name(const std::vector<T>& entries, std::string_view name) {
  const std::string folded = folded_name(name);
  for (const T& entry : entries) {
    if (folded_name(entry.name) == folded) return &entry;
  }
  return nullptr;
}

/// Keeps the entry unless its name is taken.
template <class T>
void add_unique(FieldReader& reader, const TableView& table, std::vector<T>& entries, T entry) {
  if (!entry.name.empty() && find_by_name(entries, entry.name) != nullptr) {
    add_issue(reader, IssueCode::inconsistent, *table.node, path_from(table, "name"), "a name of its own",
              fmt::format("{} is there twice: {}", path_from(table, "name"), entry.name), "");
    return;
  }
  entries.push_back(std::move(entry));
}

void read_plants(FieldReader& reader, const TableView& root, const FigureContext& context, Catalogue& catalogue) {
  for (const TableView& table : read_tables(reader, root, "group")) {
    add_unique(reader, table, catalogue.plant_groups, read_plant_group(reader, table, context));
  }
  for (const TableView& table : read_tables(reader, root, "plant")) {
    add_unique(reader, table, catalogue.plants, read_plant(reader, table, context, catalogue.plant_groups));
  }
  for (const TableView& table : read_tables(reader, root, "raising")) {
    catalogue.raising.push_back(read_raising(reader, table, context, catalogue.plant_groups));
  }
}

constexpr std::pair<std::string_view, FinishAge> finish_age_words[] = {{"fresh", FinishAge::fresh},
                                                                       {"weathered", FinishAge::weathered}};

void read_finishes(FieldReader& reader, const TableView& root, const FigureContext& context, Catalogue& catalogue) {
  for (const TableView& table : read_tables(reader, root, "finish")) {
    check_keys(reader, table, finish_keys());
    Finish finish;
    finish.name = read_required_text(reader, table, "name", "add name = \"bitumen, weathered\"");
    finish.albedo =
        read_required_spread(reader, table, {.key = "albedo", .least = 0, .most = 1, .unit = "share"}, context);
    finish.emissivity =
        read_required_spread(reader, table, {.key = "emissivity", .least = 0.02, .most = 1, .unit = "share"}, context);
    finish.membrane = read_required_text(reader, table, "membrane", "name the material that it is the face of");
    if (has_field(reader, table, "age", "add age = \"fresh\" or \"weathered\"")) {
      finish.age = read_choice<FinishAge>(reader, table, "age", finish_age_words).value_or(FinishAge::weathered);
    }
    add_unique(reader, table, catalogue.finishes, std::move(finish));
  }
}

void read_rivals(FieldReader& reader, const TableView& root, const FigureContext& context, RivalDefaults& rivals) {
  const std::optional<TableView> table = read_table(reader, root, "rivals");
  if (!table) return;
  check_keys(reader, *table, rivals_keys());
  const auto share = [&](std::string_view key) {
    return read_required_spread(reader, *table, {.key = key, .least = 0, .most = 1, .unit = "share"}, context);
  };
  const auto length = [&](std::string_view key) {
    return read_required_spread(reader, *table, {.key = key, .least = 1, .most = 3000, .unit = "mm"}, context);
  };
  rivals.white_albedo_new = share("white_albedo_new");
  rivals.white_albedo_aged = share("white_albedo_aged");
  rivals.white_emissivity = share("white_emissivity");
  rivals.white_life_years = read_required_spread(
      reader, *table, {.key = "white_life_years", .least = 0, .most = 200, .unit = "years", .is_least_open = true},
      context);
  rivals.net_material = read_required_text(reader, *table, "net_material", "name a material");
  rivals.net_height_mm = length("net_height_mm");
  rivals.board_material = read_required_text(reader, *table, "board_material", "name a material");
  rivals.board_thickness_mm = length("board_thickness_mm");
  rivals.ballast_material = read_required_text(reader, *table, "ballast_material", "name a material");
  rivals.ballast_thickness_mm = length("ballast_thickness_mm");
}

void read_prices(FieldReader& reader, const TableView& root, const FigureContext& context, Catalogue& catalogue) {
  if (find_member(*root.node, "currency") != nullptr) catalogue.currency = read_currency(reader, root);
  for (const TableView& table : read_tables(reader, root, "price")) {
    add_unique(reader, table, catalogue.prices, read_price_item(reader, table, context));
  }
  if (const std::optional<TableView> table = read_table(reader, root, "tariff")) {
    catalogue.tariff = read_tariff(reader, *table, context, catalogue.tariff);
  }
}

/// A text that must be one of a list.
std::string read_listed(FieldReader& reader, const TableView& table, std::string_view key, std::string_view what,
                        std::span<const std::string_view> list) {
  const std::vector<std::string> known(list.begin(), list.end());
  const std::string word =
      read_required_text(reader, table, key, fmt::format("add {} = one of {}", key, joined_names(known)));
  if (!word.empty() && std::find(known.begin(), known.end(), word) == known.end()) {
    add_unknown_name(reader, *find_member(*table.node, key), path_from(table, key), what, known);
  }
  return word;
}

void read_cautions(FieldReader& reader, const TableView& root, Catalogue& catalogue) {
  for (const TableView& table : read_tables(reader, root, "caution")) {
    check_keys(reader, table, caution_keys());
    Caution caution;
    caution.id = read_required_text(reader, table, "id", "add id = \"a-word-of-its-own\"");
    caution.when = read_listed(reader, table, "when", "condition", caution_conditions);
    caution.beside = read_listed(reader, table, "beside", "place of a caution", caution_places);
    caution.text = read_required_text(reader, table, "text", "add text = \"a sentence\"");
    caution.source = read_required_text(reader, table, "source", "add source = where it comes from");
    if (has_field(reader, table, "first_page", "add first_page = true or false")) {
      caution.is_on_first_page = read_flag(reader, table, "first_page").value_or(true);
    }
    const auto same = [&caution](const Caution& one) { return one.id == caution.id; };
    if (!caution.id.empty() && std::any_of(catalogue.cautions.begin(), catalogue.cautions.end(), same)) {
      add_issue(reader, IssueCode::inconsistent, member_or_table(table, "id"), path_from(table, "id"),
                "an id of its own", fmt::format("{} is there twice: {}", path_from(table, "id"), caution.id), "");
    }
    catalogue.cautions.push_back(std::move(caution));
  }
}

void read_one_file(const CatalogueFile& file, Catalogue& catalogue, Issues& issues) {
  const Result<TomlNode> parsed = parse_toml(file.text, file.name, catalogue_limits);
  if (!parsed) {
    issues.insert(issues.end(), parsed.error().begin(), parsed.error().end());
    return;
  }
  FieldReader reader{file.text, file.name, {}};
  const TableView root{&parsed.value(), ""};
  constexpr std::string_view known[] = {"source", "waits_for", "material", "part",  "group",   "plant",  "finish",
                                        "rivals", "currency",  "tariff",   "price", "caution", "raising"};
  check_keys(reader, root, known);
  const bool has_figures = find_member(parsed.value(), "caution") == nullptr;
  const FigureContext context = has_figures ? read_figure_context(reader, root) : FigureContext{};
  for (const TableView& table : read_tables(reader, root, "material")) {
    add_unique(reader, table, catalogue.materials, read_material(reader, table, context));
  }
  for (const TableView& table : read_tables(reader, root, "part")) {
    add_unique(reader, table, catalogue.parts, read_part(reader, table, context));
  }
  read_plants(reader, root, context, catalogue);
  read_finishes(reader, root, context, catalogue);
  read_rivals(reader, root, context, catalogue.rivals);
  read_prices(reader, root, context, catalogue);
  read_cautions(reader, root, catalogue);
  const std::vector<WaitingColumn> waiting = read_waiting(reader, root);
  catalogue.waiting.insert(catalogue.waiting.end(), waiting.begin(), waiting.end());
  issues.insert(issues.end(), reader.issues.begin(), reader.issues.end());
}

/// What must be there over all files together; its issues have no place.
void check_whole(const Catalogue& catalogue, Issues& issues) {
  const auto add = [&issues](IssueCode code, std::string message) {
    Issue issue;
    issue.code = code;
    issue.message = std::move(message);
    issues.push_back(std::move(issue));
  };
  if (catalogue.materials.empty()) add(IssueCode::missing_field, "the catalogue has no materials");
  if (catalogue.finishes.empty()) add(IssueCode::missing_field, "the catalogue has no finishes");
  if (catalogue.currency.empty()) add(IssueCode::missing_field, "the catalogue has no currency");
  if (catalogue.tariff.electricity_per_kwh.source.empty()) add(IssueCode::missing_field, "the catalogue has no tariff");
  const RivalDefaults& rivals = catalogue.rivals;
  for (const std::string& name : {rivals.net_material, rivals.board_material, rivals.ballast_material}) {
    if (find_material(catalogue, name) == nullptr) {
      add(IssueCode::unknown_name, fmt::format("the catalogue's rivals need the material \"{}\"", name));
    }
  }
  for (const Finish& finish : catalogue.finishes) {
    if (find_material(catalogue, finish.membrane) == nullptr) {
      add(IssueCode::unknown_name,
          fmt::format("the finish \"{}\" is the face of \"{}\", which is no material of the catalogue", finish.name,
                      finish.membrane));
    }
  }
}

}  // namespace

Result<Catalogue> read_catalogue(std::span<const CatalogueFile> files) {
  Catalogue catalogue;
  Issues issues;
  for (const CatalogueFile& file : files) read_one_file(file, catalogue, issues);
  if (issues.empty()) check_whole(catalogue, issues);
  if (!issues.empty()) return Unexpected{std::move(issues)};
  const auto by_name = [](const auto& a, const auto& b) { return a.name < b.name; };
  std::sort(catalogue.materials.begin(), catalogue.materials.end(), by_name);
  std::sort(catalogue.parts.begin(), catalogue.parts.end(), by_name);
  std::sort(catalogue.waiting.begin(), catalogue.waiting.end(), [](const WaitingColumn& a, const WaitingColumn& b) {
    return std::pair(a.table, a.column) < std::pair(b.table, b.column);
  });
  std::sort(catalogue.prices.begin(), catalogue.prices.end(), by_name);
  return catalogue;
}

const Material* find_material(const Catalogue& catalogue, std::string_view name) {
  return find_by_name(catalogue.materials, name);
}

const Part* find_part(const Catalogue& catalogue, std::string_view name) { return find_by_name(catalogue.parts, name); }

const Plant* find_plant(const Catalogue& catalogue, std::string_view botanical_or_common_name) {
  if (const Plant* plant = find_by_name(catalogue.plants, botanical_or_common_name)) return plant;
  const std::string folded = folded_name(botanical_or_common_name);
  for (const Plant& plant : catalogue.plants) {
    if (!plant.common_name.empty() && folded_name(plant.common_name) == folded) return &plant;
  }
  return nullptr;
}

const Finish* find_finish(const Catalogue& catalogue, std::string_view name) {
  return find_by_name(catalogue.finishes, name);
}

const PriceItem* find_price(const Catalogue& catalogue, std::string_view name) {
  return find_by_name(catalogue.prices, name);
}

bool is_waiting(const Catalogue& catalogue, std::string_view table, std::string_view column) {
  return std::any_of(catalogue.waiting.begin(), catalogue.waiting.end(),
                     [&](const WaitingColumn& one) { return one.table == table && one.column == column; });
}

std::string_view text_from_certainty(Certainty certainty) {
  for (const auto& [word, value] : certainty_words) {
    if (value == certainty) return word;
  }
  expects(false, "a certainty of the list");
  return {};
}

}  // namespace houseleek::catalogue
