// What a country's lists of invasive plants mean for a plant that is new, already here, or taken from the wild.
#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/plant.hpp"
#include "design/planting.hpp"

namespace houseleek::planting {

/// What follows for one plant that comes in one way.
enum class Standing {
  not_listed,       // by what was looked at
  advised_against,  // no list forbids it, or a part of the country does
  refused,          // new, and a list is against it
  keep_in,          // already here: it may stay where nothing of it gets out
  remove            // already here, and it may not stay
};
[[nodiscard]] std::string_view word_of(Standing standing);

struct InvasiveWord {
  Standing standing = Standing::not_listed;
  std::string text;                // with list, country, and how that is known
  std::vector<std::string> steps;  // what to do where it is here; empty for a new one
  std::string from_wild;           // what the law has to say to taking it from the wild; empty: nothing of its own
};

/// How many modules have it and where its seed and scraps come from.
struct InvasivePlace {
  int n_modules = 0;
  catalogue::Hemisphere hemisphere = catalogue::Hemisphere::north;
};

/// The strictest listing of the country, and of the European Union where the country is in it, stands first; one that
/// holds in a part of the country is taken to hold where the house stands.
[[nodiscard]] InvasiveWord judge_invasive(const catalogue::Plant& plant, std::string_view country,
                                          design::PlantOrigin origin, const InvasivePlace& place);

/// Whether lists of the country were looked at for the catalogue at all, and how: one sentence.
[[nodiscard]] std::string lists_of_country(std::span<const catalogue::Plant> plants, std::string_view country);

/// What holds for every plant and cane that comes from the wild.
[[nodiscard]] std::string wild_rule(bool has_live_canes);

}  // namespace houseleek::planting
