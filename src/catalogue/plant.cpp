// What follows from a plant's entry: when it blooms, what a country's lists say, whether it is poisonous.
#include "catalogue/plant.hpp"

#include <algorithm>
#include <iterator>

#include "base/contract.hpp"

namespace houseleek::catalogue {
namespace {

// The members since 2020.
constexpr std::string_view eu_members[] = {"AT", "BE", "BG", "HR", "CY", "CZ", "DK", "EE", "FI",
                                           "FR", "DE", "GR", "HU", "IE", "IT", "LV", "LT", "LU",
                                           "MT", "NL", "PL", "PT", "RO", "SK", "SI", "ES", "SE"};
constexpr int months_in_year = 12;

}  // namespace

bool blooms_in(const Plant& plant, int month, Hemisphere hemisphere) {
  expects(month >= 1 && month <= months_in_year, "a month from 1 to 12");
  if (plant.bloom_first_month == 0) return false;
  const int northern = hemisphere == Hemisphere::north ? month : (month + months_in_year / 2 - 1) % months_in_year + 1;
  if (plant.bloom_first_month <= plant.bloom_last_month) {
    return northern >= plant.bloom_first_month && northern <= plant.bloom_last_month;
  }
  return northern >= plant.bloom_first_month || northern <= plant.bloom_last_month;
}

std::vector<InvasiveListing> invasive_listings(const Plant& plant, std::string_view country) {
  const bool is_in_union = std::find(std::begin(eu_members), std::end(eu_members), country) != std::end(eu_members);
  std::vector<InvasiveListing> found;
  for (const InvasiveListing& listing : plant.invasive) {
    if (listing.country == country || (is_in_union && listing.country == "EU")) found.push_back(listing);
  }
  return found;
}

bool is_poisonous(const Plant& plant) {
  return has_hazard(plant.hazards, Hazard::poison_people) || has_hazard(plant.hazards, Hazard::poison_dogs) ||
         has_hazard(plant.hazards, Hazard::poison_cats);
}

}  // namespace houseleek::catalogue
