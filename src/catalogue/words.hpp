// What the catalogue says in words, not numbers: fixed lists, each word with one meaning.
#pragma once
#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalogue/spread.hpp"

namespace houseleek::catalogue {

/// Where what an entry says in words comes from.
struct Origin {
  std::string source;
  Certainty certainty = Certainty::estimate;
  bool operator==(const Origin&) const = default;
};

/// What a thing is made of, as far as it matters to what may touch what, and to fire. `medium`: a mix that grows plants.
enum class Family {
  mineral,
  medium,
  wood,
  plant_fibre,
  animal_fibre,
  polyethylene,
  polypropylene,
  polyester,
  polyamide,
  polystyrene,
  polyurethane,
  pvc,
  rubber,
  acrylic,
  bitumen,
  metal,
  glass
};

/// How a thing can hurt, or what it brings along.
enum class Hazard {
  dust,           // breathed in when poured or cut dry
  fibres,         // itch and are breathed in when handled, cut or dried out
  spores,         // moulds and bacteria of composts: hands, mask, no spray
  salt,           // must be rinsed before plants or metal meet it
  foil,           // a film that fills with water or blows about once it is torn
  live_shoots,    // may grow from joints or scraps
  poison_people,  // if eaten
  poison_dogs,
  poison_cats,
  skin,  // sap or hairs that burn or itch
  spines
};

/// Whether food may be grown in it or beside it. doubtful: unknown binders, dyes, biocides.
enum class NearFood { yes, doubtful, no };

enum class Tolerance { none, some, good };

inline constexpr std::pair<std::string_view, Family> family_words[] = {{"mineral", Family::mineral},
                                                                       {"medium", Family::medium},
                                                                       {"wood", Family::wood},
                                                                       {"plant_fibre", Family::plant_fibre},
                                                                       {"animal_fibre", Family::animal_fibre},
                                                                       {"polyethylene", Family::polyethylene},
                                                                       {"polypropylene", Family::polypropylene},
                                                                       {"polyester", Family::polyester},
                                                                       {"polyamide", Family::polyamide},
                                                                       {"polystyrene", Family::polystyrene},
                                                                       {"polyurethane", Family::polyurethane},
                                                                       {"pvc", Family::pvc},
                                                                       {"rubber", Family::rubber},
                                                                       {"acrylic", Family::acrylic},
                                                                       {"bitumen", Family::bitumen},
                                                                       {"metal", Family::metal},
                                                                       {"glass", Family::glass}};
inline constexpr std::pair<std::string_view, Hazard> hazard_words[] = {{"dust", Hazard::dust},
                                                                       {"fibres", Hazard::fibres},
                                                                       {"spores", Hazard::spores},
                                                                       {"salt", Hazard::salt},
                                                                       {"foil", Hazard::foil},
                                                                       {"live_shoots", Hazard::live_shoots},
                                                                       {"poison_people", Hazard::poison_people},
                                                                       {"poison_dogs", Hazard::poison_dogs},
                                                                       {"poison_cats", Hazard::poison_cats},
                                                                       {"skin", Hazard::skin},
                                                                       {"spines", Hazard::spines}};
inline constexpr std::pair<std::string_view, NearFood> near_food_words[] = {
    {"yes", NearFood::yes}, {"doubtful", NearFood::doubtful}, {"no", NearFood::no}};
inline constexpr std::pair<std::string_view, Tolerance> tolerance_words[] = {
    {"none", Tolerance::none}, {"some", Tolerance::some}, {"good", Tolerance::good}};
inline constexpr std::pair<std::string_view, Certainty> certainty_words[] = {
    {"by_definition", Certainty::by_definition}, {"text_seen", Certainty::text_seen},
    {"recomputed", Certainty::recomputed},       {"from_memory", Certainty::from_memory},
    {"estimate", Certainty::estimate},           {"invented", Certainty::invented},
    {"own_figure", Certainty::own_figure},       {"measured", Certainty::measured}};

[[nodiscard]] inline bool has_hazard(const std::vector<Hazard>& hazards, Hazard hazard) {
  return std::find(hazards.begin(), hazards.end(), hazard) != hazards.end();
}

}  // namespace houseleek::catalogue
