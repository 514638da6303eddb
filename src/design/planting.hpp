// [planting], and where the plants of a design come from.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "catalogue/words.hpp"

namespace houseleek::design {

/// Where a plant comes from. `unsaid` counts as fresh: what is not yet there.
enum class PlantOrigin { unsaid, fresh, already_here, from_wild };

inline constexpr std::pair<std::string_view, PlantOrigin> plant_origin_words[] = {
    {"new", PlantOrigin::fresh}, {"already_here", PlantOrigin::already_here}, {"from_wild", PlantOrigin::from_wild}};

/// How much sun the roof's plants get on a clear summer's day, nets of recipes apart.
enum class RoofSun { full, half, shade };
inline constexpr std::pair<std::string_view, RoofSun> roof_sun_words[] = {
    {"full", RoofSun::full}, {"half", RoofSun::half}, {"shade", RoofSun::shade}};

/// Salt that the wind brings from the sea.
enum class SaltSpray { none, some, strong };
inline constexpr std::pair<std::string_view, SaltSpray> salt_spray_words[] = {
    {"none", SaltSpray::none}, {"some", SaltSpray::some}, {"strong", SaltSpray::strong}};

/// What no other table tells of the roof as a place for plants; what is absent was not said.
struct Planting {
  std::optional<RoofSun> sun;
  std::optional<SaltSpray> salt_spray;
  bool operator==(const Planting&) const = default;
};

/// The plant of a bag, pot or tub.
struct ContainerPlant {
  std::string name;  // botanical
  PlantOrigin origin = PlantOrigin::unsaid;
  std::optional<std::int64_t> since;  // a day since 1970
  bool operator==(const ContainerPlant&) const = default;
};

}  // namespace houseleek::design
