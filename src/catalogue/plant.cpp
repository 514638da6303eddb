// What follows from a plant's entry: when it blooms, what a country's lists say, whether it is poisonous.
#include "catalogue/plant.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "catalogue/raising.hpp"

namespace houseleek::catalogue {
namespace {

// The members since 2020.
constexpr std::string_view eu_members[] = {"AT", "BE", "BG", "HR", "CY", "CZ", "DK", "EE", "FI",
                                           "FR", "DE", "GR", "HU", "IE", "IT", "LV", "LT", "LU",
                                           "MT", "NL", "PL", "PT", "RO", "SK", "SI", "ES", "SE"};

}  // namespace

bool blooms_in(const Plant& plant, int month, Hemisphere hemisphere) {
  return is_month_within(plant.bloom_first_month, plant.bloom_last_month, month, hemisphere);
}

std::vector<InvasiveListing> invasive_listings(const Plant& plant, std::string_view country) {
  const bool is_in_union = std::find(std::begin(eu_members), std::end(eu_members), country) != std::end(eu_members);
  std::vector<InvasiveListing> found;
  for (const InvasiveListing& listing : plant.invasive) {
    if (listing.country == country || (is_in_union && listing.country == "EU")) found.push_back(listing);
  }
  std::stable_sort(found.begin(), found.end(), [](const InvasiveListing& a, const InvasiveListing& b) {
    const auto rank = [](const InvasiveListing& listing) {
      return std::pair(listing.new_plant != NewPlant::refused, !listing.region.empty());
    };
    return rank(a) < rank(b);
  });
  return found;
}

std::string text_from_listing(const InvasiveListing& listing) {
  const std::string where =
      listing.region.empty() ? listing.country : fmt::format("{} ({})", listing.country, listing.region);
  const std::string_view known = listing.from.certainty == Certainty::text_seen
                                     ? "its text was seen; lists change"
                                     : "as remembered, not read again: look it up";
  return fmt::format("{}: {} ({})", where, listing.list, known);
}

bool is_poisonous(const Plant& plant) {
  return has_hazard(plant.hazards, Hazard::poison_people) || has_hazard(plant.hazards, Hazard::poison_dogs) ||
         has_hazard(plant.hazards, Hazard::poison_cats);
}

}  // namespace houseleek::catalogue
