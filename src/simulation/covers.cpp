// From a design to what the stepper is told: the house bare, planted as laid out, and under each plain rival.
#include "simulation/covers.hpp"

#include <algorithm>

#include "base/contract.hpp"
#include "design/defaults.hpp"
#include "numerics/elementary.hpp"
#include "physics/air.hpp"
#include "simulation/cover_layers.hpp"
#include "simulation/cover_rooms.hpp"
#include "simulation/cover_strips.hpp"

namespace houseleek::simulation {
namespace {

/// What the stacks of one house have in common.
struct House {
  const design::Design& design;
  const plan::Layout& layout;
  Stack bare;                                    // over no room yet
  std::vector<std::vector<Watering>> waterings;  // by recipe
};

double mean_air_c(const climate::WeatherYear& weather) {
  double sum_c = 0.0;
  for (const double one_c : weather.air_temperature_c) sum_c += one_c;
  return sum_c / static_cast<double>(weather.air_temperature_c.size());
}

House make_house(const design::ValidDesign& design, const plan::Layout& layout, const climate::WeatherYear& weather) {
  House house{.design = *design, .layout = layout, .bare = {}, .waterings = {}};
  house.bare.deck = deck_layers(design->roof);
  house.bare.surface.albedo = design->roof.finish.albedo;
  house.bare.surface.emissivity = design->roof.finish.emissivity;
  house.bare.outside_film.roof_length_m = numerics::sqrt(layout.area_m2);
  house.bare.outside_film.wind_to_roof_frac = design->site.wind_factor;
  house.bare.initial_temperature_c = mean_air_c(weather);
  const bool is_watered = std::any_of(design->recipes.begin(), design->recipes.end(),
                                      [](const design::Recipe& recipe) { return recipe.watering.has_value(); });
  const std::array<Season, 12> seasons = is_watered ? seasons_of(design->climate, weather) : std::array<Season, 12>{};
  for (const design::Recipe& recipe : design->recipes) house.waterings.push_back(watering_rules(recipe, seasons));
  return house;
}

const design::Recipe& recipe_of(const House& house, int recipe) {
  return house.design.recipes[static_cast<std::size_t>(recipe)];
}

struct ModuleForm {
  int recipe = 0;
  design::Placed placed = design::Placed::flat;
  double air_way_m = 1.0;
};

Stack planted_stack(const House& house, const ModuleForm& form) {
  const design::Recipe& recipe = recipe_of(house, form.recipe);
  Stack stack = module_stack(recipe);
  stack.deck = house.bare.deck;
  stack.outside_film = house.bare.outside_film;
  stack.initial_temperature_c = house.bare.initial_temperature_c;
  const ModuleSeat seat = module_seat(recipe, form.placed, house.design.roof.finish.emissivity, form.air_way_m);
  stack.under = seat.under;
  stack.gap = seat.gap;
  stack.waterings = house.waterings[static_cast<std::size_t>(form.recipe)];
  return stack;
}

Stack white_stack(const House& house) {
  Stack stack = house.bare;
  stack.surface.albedo = house.design.rivals.white_albedo_aged;
  stack.surface.emissivity = house.design.rivals.white_emissivity;
  return stack;
}

Stack netted_stack(const House& house) {
  Stack stack = house.bare;
  stack.has_net = true;
  stack.net = net_from_screen(house.design.rivals.net);
  return stack;
}

Stack board_stack(const House& house) {
  const design::Rivals& rivals = house.design.rivals;
  const catalogue::Material& ballast = rivals.ballast.material;
  expects(ballast.albedo_dry.has_value() && ballast.emissivity.has_value(), "a ballast whose surface is known");
  Stack stack = house.bare;
  stack.surface.albedo = ballast.albedo_dry->likely;
  stack.surface.emissivity = ballast.emissivity->likely;
  stack.module = {dry_layer(ballast, rivals.ballast.thickness_mm),
                  dry_layer(rivals.board.material, rivals.board.thickness_mm)};
  stack.under = Under::contact;
  stack.gap.contact_resistance_m2_k_per_w = design::defaults::contact.likely;
  return stack;
}

StackForm form_of(Cover cover) {
  switch (cover) {
    case Cover::white_same_squares:
    case Cover::white_whole_roof:
      return StackForm::white;
    case Cover::net_same_squares:
    case Cover::net_whole_roof:
      return StackForm::net;
    case Cover::board_same_squares:
    case Cover::board_whole_roof:
      return StackForm::board;
    case Cover::bare:
    case Cover::planted:
      return StackForm::bare;
  }
  expects(false, "a cover of the list");
  return StackForm::bare;
}

bool is_whole_roof(Cover cover) {
  return cover == Cover::bare || cover == Cover::white_whole_roof || cover == Cover::net_whole_roof ||
         cover == Cover::board_whole_roof;
}

Stack rival_stack(const House& house, StackForm form) {
  if (form == StackForm::white) return white_stack(house);
  if (form == StackForm::net) return netted_stack(house);
  if (form == StackForm::board) return board_stack(house);
  return house.bare;
}

std::string form_word(StackForm form) {
  switch (form) {
    case StackForm::bare:
      return "bare";
    case StackForm::flat:
      return "flat";
    case StackForm::raised:
      return "raised";
    case StackForm::white:
      return "white";
    case StackForm::net:
      return "net";
    case StackForm::board:
      return "board";
  }
  expects(false, "a form of the list");
  return "";
}

/// What lies on the deck in a kind's modules, and the deck between them.
struct KindStacks {
  Stack under;
  Stack between;
  StackOrigin origin;  // of the strips under
};

/// Sun and sky in the spaces between bodies of this height.
Stack between_stack(const House& house, double height_m, double spacing_m) {
  Stack stack = house.bare;
  if (spacing_m <= 0.0 || height_m <= 0.0) return stack;
  const double sky_frac = joint_sky_frac(height_m, spacing_m);
  stack.surface.albedo = 1.0 - sky_frac * (1.0 - stack.surface.albedo);
  stack.surface.emissivity = sky_frac * stack.surface.emissivity;
  return stack;
}

KindStacks kind_stacks(const House& house, const CellKind& kind, Cover cover, int room) {
  KindStacks stacks;
  stacks.origin.room = room;
  if (cover != Cover::planted) {
    const design::Rivals& rivals = house.design.rivals;
    stacks.origin.form = form_of(cover);
    stacks.under = rival_stack(house, stacks.origin.form);
    const double height_m = stacks.origin.form == StackForm::board
                                ? 0.001 * (rivals.board.thickness_mm + rivals.ballast.thickness_mm)
                                : 0.0;
    stacks.between = between_stack(house, height_m, kind.spacing_m);
    return stacks;
  }
  const bool is_raised = kind.placed == design::Placed::raised;
  const design::Recipe& recipe = recipe_of(house, kind.recipe);
  const double gap_m = is_raised ? 0.001 * recipe.spacer.height_mm : 0.0;
  stacks.origin.form = is_raised ? StackForm::raised : StackForm::flat;
  stacks.origin.recipe = kind.recipe;
  // Joints narrower than the gap is high renew little of its air: its way is then the whole block.
  const double air_way_m =
      kind.spacing_m < gap_m ? kind.block_side_m : numerics::sqrt(kind.module_length_m * kind.module_width_m);
  stacks.under = planted_stack(house, {kind.recipe, kind.placed, air_way_m});
  stacks.between = between_stack(house, module_height_m(recipe) + gap_m, kind.spacing_m);
  return stacks;
}

/// A group on the way.
struct Builder {
  const House& house;
  bool has_fine_strips = true;
  CoverGroup out;

  int add(Stack stack, const StackOrigin& origin, double area_m2, const std::string& what) {
    stack.area_m2 = area_m2;
    stack.room = origin.room;
    stack.name = house.design.rooms[static_cast<std::size_t>(origin.room)].name + ", " + what;
    out.group.stacks.push_back(std::move(stack));
    out.origins.push_back(origin);
    return static_cast<int>(out.group.stacks.size()) - 1;
  }
  [[nodiscard]] std::vector<Strip> strips(const std::vector<Strip>& fine) const {
    return has_fine_strips ? fine : coarser(fine);
  }
  void link(int first, int second, double edge_m, double distance_m) {
    if (edge_m > 0.0) out.group.side_links.push_back({first, second, edge_m, distance_m});
  }
};

std::string distance_words(double distance_m) {
  const int millimetres = static_cast<int>(1000.0 * distance_m + 0.5);
  return std::to_string(millimetres) + " mm from the edge";
}

/// Strips in a row from an edge, joined to one another; `sign` 1 under the modules, -1 beside them. Returns their
/// places in the group.
std::vector<int> add_strips(Builder& builder, const std::vector<Strip>& strips, const Stack& like, StackOrigin origin,
                            double sign, const std::string& what) {
  std::vector<int> places;
  for (std::size_t i = 0; i < strips.size(); ++i) {
    const Strip& strip = strips[i];
    const double middle_m = 0.5 * (strip.from_m + strip.to_m);
    origin.distance_to_edge_m = sign * middle_m;
    origin.is_middle = sign > 0.0 && i + 1 == strips.size();
    places.push_back(builder.add(like, origin, strip.area_m2, what + ", " + distance_words(middle_m)));
    if (i == 0) continue;
    const Strip& before = strips[i - 1];
    builder.link(places[i - 1], places[i], before.onward_edge_m,
                 half_width_m(before.to_m - before.from_m) + half_width_m(strip.to_m - strip.from_m));
  }
  return places;
}

double first_half_m(const std::vector<Strip>& strips) { return half_width_m(strips[0].to_m - strips[0].from_m); }

/// Bare deck beside all blocks of a room, with the rest of the room's roof.
struct Beside {
  std::vector<Strip> strips;
  std::vector<int> places;
};

void add_kind(Builder& builder, const CellKind& kind, Cover cover, const Beside& beside, int room) {
  const KindStacks stacks = kind_stacks(builder.house, kind, cover, room);
  const std::string what = cover == Cover::planted
                               ? recipe_of(builder.house, kind.recipe).name + " " + form_word(stacks.origin.form)
                               : form_word(stacks.origin.form);
  const std::vector<Strip> under = builder.strips(strips_under(kind));
  const std::vector<int> places = add_strips(builder, under, stacks.under, stacks.origin, 1.0, what);
  const StackOrigin bare{.form = StackForm::bare, .room = room};
  const std::vector<Strip> between = builder.strips(strips_between(kind));
  const std::vector<int> between_places =
      add_strips(builder, between, stacks.between, bare, -1.0, "bare between " + what);
  if (!beside.places.empty()) {
    const double shift_m = beside.strips[0].from_m;  // a first strip that was too small to stand alone
    builder.link(places[0], beside.places[0], kind.bare_edge_m,
                 first_half_m(under) + shift_m + first_half_m(beside.strips));
  }
  if (between.empty()) return;
  if (!kind.is_block()) {
    builder.link(places[0], between_places[0], kind.between_edge_m, first_half_m(under) + first_half_m(between));
    return;
  }
  // Joints run all through a block: each of its strips has its share of their edges.
  const double distance_m = first_half_m(between) + half_width_m(0.5 * kind.module_width_m);
  for (std::size_t i = 0; i < under.size(); ++i) {
    builder.link(places[i], between_places[0], kind.between_edge_m * under[i].area_m2 / kind.covered_m2, distance_m);
  }
}

/// What rounding and strips too small to count left over goes to the room's largest stack, so that areas sum to the
/// room's.
void close_area(Builder& builder, int room, double area_m2) {
  double sum_m2 = 0.0;
  Stack* largest = nullptr;
  for (Stack& stack : builder.out.group.stacks) {
    if (stack.room != room) continue;
    sum_m2 += stack.area_m2;
    if (largest == nullptr || stack.area_m2 > largest->area_m2) largest = &stack;
  }
  expects(largest != nullptr, "a stack over every room");
  largest->area_m2 += area_m2 - sum_m2;
}

void add_room(Builder& builder, const plan::RoomLayout& room, Cover cover) {
  StackOrigin origin{.form = form_of(cover), .room = room.room};
  if (is_whole_roof(cover) || room.cells.empty()) {
    origin.form = is_whole_roof(cover) ? origin.form : StackForm::bare;
    origin.is_middle = origin.form != StackForm::bare;
    builder.add(rival_stack(builder.house, origin.form), origin, room.area_m2, form_word(origin.form));
    return;
  }
  origin.form = StackForm::bare;
  Beside beside;
  beside.strips = builder.strips(strips_beside(room));
  beside.places = add_strips(builder, beside.strips, builder.house.bare, origin, -1.0, "bare");
  for (const CellKind& kind : cell_kinds(room, cover == Cover::planted)) {
    add_kind(builder, kind, cover, beside, room.room);
  }
  close_area(builder, room.room, room.area_m2);
}

std::vector<double> ceilings_m2(const plan::Layout& layout) {
  std::vector<double> areas_m2;
  for (const plan::RoomLayout& room : layout.rooms) areas_m2.push_back(room.area_m2);
  return areas_m2;
}

}  // namespace

CoverGroup make_cover_group(const design::ValidDesign& design, const plan::Layout& layout,
                            const climate::WeatherYear& weather, Cover cover, const CoverOptions& options) {
  expects(layout.rooms.size() == design->rooms.size(), "the layout of this design");
  const House house = make_house(design, layout, weather);
  Builder builder{.house = house, .has_fine_strips = options.has_fine_strips, .out = {}};
  for (const plan::RoomLayout& room : layout.rooms) add_room(builder, room, cover);
  Group& group = builder.out.group;
  group.rooms = make_rooms(*design, weather, ceilings_m2(layout), options.is_held);
  group.partitions = make_partitions(*design);
  group.pressure_pa = physics::pressure_at_elevation_pa(design->site.elevation_m);
  if (options.has_sideways) {
    slow_down_links(group);
  } else {
    group.side_links.clear();
  }
  return std::move(builder.out);
}

CoverGroup make_room_group(const design::ValidDesign& design, const plan::Layout& layout,
                           const climate::WeatherYear& weather, const RoomAlone& alone) {
  expects(alone.recipe >= -1 && alone.recipe < static_cast<int>(design->recipes.size()), "a recipe of the design");
  expects(alone.room >= 0 && alone.room < static_cast<int>(layout.rooms.size()), "a room of the design");
  const House house = make_house(design, layout, weather);
  const double area_m2 = layout.rooms[static_cast<std::size_t>(alone.room)].area_m2;
  Builder builder{.house = house, .out = {}};
  StackOrigin origin{.room = alone.room, .recipe = alone.recipe, .is_middle = true};
  if (alone.recipe < 0) {
    builder.add(house.bare, origin, area_m2, form_word(origin.form));
  } else {
    origin.form = alone.placed == design::Placed::raised ? StackForm::raised : StackForm::flat;
    builder.add(planted_stack(house, {alone.recipe, alone.placed, numerics::sqrt(area_m2)}), origin, area_m2,
                recipe_of(house, alone.recipe).name + " " + form_word(origin.form));
  }
  Group& group = builder.out.group;
  std::vector<Room> rooms = make_rooms(*design, weather, ceilings_m2(layout), alone.is_held);
  group.rooms.push_back(std::move(rooms[static_cast<std::size_t>(alone.room)]));
  group.stacks[0].room = 0;
  builder.out.origins[0].room = 0;
  group.pressure_pa = physics::pressure_at_elevation_pa(design->site.elevation_m);
  return std::move(builder.out);
}

CoverGroup make_recipe_group(const design::ValidDesign& design, const plan::Layout& layout,
                             const climate::WeatherYear& weather, int recipe, design::Placed placed) {
  const auto largest =
      std::max_element(layout.rooms.begin(), layout.rooms.end(),
                       [](const plan::RoomLayout& a, const plan::RoomLayout& b) { return a.area_m2 < b.area_m2; });
  expects(recipe >= 0 && largest != layout.rooms.end(), "a recipe and a room");
  return make_room_group(design, layout, weather, {.room = largest->room, .recipe = recipe, .placed = placed});
}

}  // namespace houseleek::simulation
