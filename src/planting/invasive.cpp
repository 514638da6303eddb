// What a country's lists of invasive plants mean for a plant that is new, already here, or taken from the wild.
#include "planting/invasive.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/month_name.hpp"
#include "base/number_words.hpp"
#include "catalogue/words.hpp"

namespace houseleek::planting {
namespace {

using catalogue::InvasiveListing;
using catalogue::Plant;
using catalogue::RaisedFrom;

constexpr int years_of_phasing_out = 3;

bool is_raised_from(const Plant& plant, std::initializer_list<RaisedFrom> ways) {
  return std::any_of(plant.raised_from.begin(), plant.raised_from.end(),
                     [&](RaisedFrom one) { return std::find(ways.begin(), ways.end(), one) != ways.end(); });
}

int month_in(int northern, catalogue::Hemisphere hemisphere) {
  return hemisphere == catalogue::Hemisphere::north ? northern : (northern + 5) % 12 + 1;
}

std::string edge_step() {
  return "Edge: trim it back a hand's breadth from every edge of the module, four times a year; nothing may hang over "
         "the "
         "parapet, into a gutter or into the next module.";
}

std::string seed_step(const Plant& plant, catalogue::Hemisphere hemisphere) {
  if (plant.bloom_first_month == 0) return "Seed: cut every flower head before it fades.";
  return fmt::format("Seed: cut the flower heads as they fade, from {} to {}; birds and wind carry what ripens.",
                     month_name(month_in(plant.bloom_first_month, hemisphere)),
                     month_name(month_in(plant.bloom_last_month, hemisphere)));
}

std::string scraps_step(const Plant& plant) {
  const bool roots_from_scraps = is_raised_from(
      plant, {RaisedFrom::cuttings, RaisedFrom::leaves, RaisedFrom::pads, RaisedFrom::offsets, RaisedFrom::runners});
  return roots_from_scraps ? "Offcuts: every scrap roots. Into a closed sack at once, dried in it on a sunny floor "
                             "until it snaps, then "
                             "household waste; never compost, never over the edge, never to a neighbour."
                           : "Offcuts: into a closed sack, seed heads with them, then household waste; never compost.";
}

/// A third of the modules each year, in the month after bloom.
std::string phase_out_step(const Plant& plant, const InvasivePlace& place) {
  if (place.n_modules <= 0) {
    return "Phase out: put another plant in its place when the pot or module is made anew.";
  }
  const int a_year = (place.n_modules + years_of_phasing_out - 1) / years_of_phasing_out;
  const int northern = plant.bloom_last_month == 0 ? 10 : plant.bloom_last_month % 12 + 1;
  return fmt::format(
      "Phase out: {} with it; make {} anew with another plant each {}, after its bloom, and it is gone in {} years.",
      counted(place.n_modules, "module", "modules"), a_year, month_name(month_in(northern, place.hemisphere)),
      (place.n_modules + a_year - 1) / a_year);
}

std::vector<std::string> steps_for(const Plant& plant, Standing standing, const InvasivePlace& place) {
  if (standing == Standing::keep_in) {
    return {edge_step(), seed_step(plant, place.hemisphere), scraps_step(plant), phase_out_step(plant, place)};
  }
  return {"Tell the authority for nature in your district before you touch it: some lists want to know first.",
          seed_step(plant, place.hemisphere),
          "Lift it with its roots and all medium within a hand's breadth, on a sheet, on a day without wind.",
          scraps_step(plant), "Look again every month for a year, and pull what comes up."};
}

}  // namespace

std::string_view word_of(Standing standing) {
  constexpr std::array<std::string_view, 5> words = {"not_listed", "advised_against", "refused", "keep_in", "remove"};
  return words[static_cast<std::size_t>(standing)];
}

InvasiveWord judge_invasive(const Plant& plant, std::string_view country, design::PlantOrigin origin,
                            const InvasivePlace& place) {
  InvasiveWord word;
  const std::vector<InvasiveListing> listings = catalogue::invasive_listings(plant, country);
  if (listings.empty()) return word;
  const InvasiveListing& listing = listings.front();
  std::string all;
  for (const InvasiveListing& one : listings) all += (all.empty() ? "" : "; ") + catalogue::text_from_listing(one);
  const bool is_forbidden = std::any_of(listings.begin(), listings.end(), [](const InvasiveListing& one) {
    return one.from_wild == catalogue::FromWild::forbidden;
  });
  word.from_wild =
      is_forbidden
          ? fmt::format(
                "{} may not be taken from the wild, carried or handed on; a scrap that falls on the way is how it "
                "spreads. {}.",
                plant.name, all)
          : fmt::format("Before {} is taken from the wild ask the authority for nature; carry it in a closed sack. {}.",
                        plant.name, all);
  if (origin == design::PlantOrigin::already_here) {
    const bool must_go = std::any_of(listings.begin(), listings.end(), [](const InvasiveListing& one) {
      return one.already_here == catalogue::AlreadyHere::remove;
    });
    word.standing = must_go ? Standing::remove : Standing::keep_in;
    word.text = must_go ? fmt::format("already here, and it may not stay: {}", all)
                        : fmt::format("already here: keep it in, bring in no more of it: {}", all);
    word.steps = steps_for(plant, word.standing, place);
    return word;
  }
  if (origin == design::PlantOrigin::from_wild) {
    word.standing = is_forbidden ? Standing::refused : Standing::advised_against;
    word.text = is_forbidden ? fmt::format("from the wild it is refused: {}", all)
                             : fmt::format("from the wild: ask first: {}", all);
    return word;
  }
  const bool is_refused = listing.new_plant == catalogue::NewPlant::refused;
  word.standing = is_refused ? Standing::refused : Standing::advised_against;
  word.text = fmt::format("as a new plant {}: {}", is_refused ? "refused" : "advised against", all);
  return word;
}

std::string lists_of_country(std::span<const Plant> plants, std::string_view country) {
  if (country.empty()) {
    return "The description names no country, so no list of invasive plants was looked at: add country to [site].";
  }
  int n_own = 0;
  bool is_under_union = false;
  int n_seen = 0;
  for (const Plant& plant : plants) {
    for (const InvasiveListing& listing : catalogue::invasive_listings(plant, country)) {
      if (listing.country != country) {
        is_under_union = true;
        continue;
      }
      ++n_own;
      n_seen += listing.from.certainty == catalogue::Certainty::text_seen ? 1 : 0;
    }
  }
  const std::string_view union_words = is_under_union ? " The list of the European Union holds there too." : "";
  if (n_own == 0) {
    return fmt::format(
        "No list of invasive plants of {} was looked at: that a plant is not named here means nothing.{} Look your "
        "country's list up before you plant anything new.",
        country, union_words);
  }
  return fmt::format(
      "Of {} the catalogue has {}, {}; no list was read from end to end.{} Look your country's list up before you "
      "plant "
      "anything new.",
      country, counted(n_own, "remark on an invasive plant", "remarks on invasive plants"),
      n_seen == 0 ? std::string("all from memory") : fmt::format("{} of them seen", n_seen), union_words);
}

std::string wild_rule(bool has_live_canes) {
  std::string text =
      "Taken from the wild: ask the owner of the land and the authority for nature first; protected places and plants "
      "are "
      "off limits, and what grows rank there may be on a list. Carry plants and scraps in a closed sack, and let none "
      "fall on the way.";
  if (has_live_canes) {
    text +=
        " Fresh reed canes grow from every joint: carry them covered, dry them in the sun until they rattle, and never "
        "lay them on wet medium before.";
  }
  return text;
}

}  // namespace houseleek::planting
