// Rounds over the roof: before a storm, after one, and when the modules have to come off.
#include "upkeep/rounds.hpp"

#include <fmt/format.h>

namespace houseleek::upkeep {
namespace {

/// A parapet that holds nobody: below the hip. Heights that building codes ask for start at about a metre.
constexpr double holds_a_person_mm = 1000.0;

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
    text += names[i];
  }
  return text;
}

}  // namespace

std::string edge_caution(const RoundFacts& facts) {
  if (facts.parapet_height_mm && *facts.parapet_height_mm >= holds_a_person_mm) {
    return "Never alone, never on a wet ladder.";
  }
  const std::string parapet =
      facts.parapet_height_mm ? fmt::format("The parapet is {:.0f} mm high and holds nobody", *facts.parapet_height_mm)
                              : std::string("No parapet is known that would hold anybody");
  return fmt::format("{}: keep two metres from the edge, never alone, never on a wet ladder.", parapet);
}

std::string lifting_caution(const RoundFacts& facts) {
  std::string how = "let it dry first, lift with a straight back";
  if (facts.soaked_kg > two_people_from_kg) how = "let it dry for days and lift with two, with straight backs";
  if (facts.soaked_kg > nobody_from_kg) {
    how = "nobody lifts that: take the medium out in buckets first, the rest when it is dry, with two";
  }
  return fmt::format(
      "The heaviest module weighs about {:.0f} kg dry and {:.0f} kg soaked: {}. No stacks: a pile is a "
      "point load.",
      facts.dry_kg, facts.soaked_kg, how);
}

std::vector<Step> steps_before_storm(const RoundFacts& facts) {
  std::vector<Step> steps;
  steps.push_back({"Go up while it is still calm, or not at all.", edge_caution(facts)});
  steps.push_back({"Clear outlets and gratings by hand; see that water has its way to each of them.", ""});
  steps.push_back({"Pull at every tie; mend what is frayed now, for ties go first.",
                   "Tails turn up or inward: they pierce membranes."});
  if (facts.has_covers) steps.push_back({"Tuck in loose edges of cover sheets; sew or pin torn seams.", ""});
  if (facts.has_nets) steps.push_back({"Take nets down and roll them up: they catch the wind like sails.", ""});
  if (facts.has_raised) {
    steps.push_back({"Lay raised modules down flat where that can be done, the corners and edges of the roof first.",
                     "Wind gets under raised modules; the study says above which gust they are not shown to stay. " +
                         lifting_caution(facts)});
  }
  steps.push_back(
      {"Water dry modules in the evening before: a wet module is heavier than a dry one. Not when heavy rain "
       "is announced too.",
       "Only as far as the engineer's figure has room for soaked weight."});
  if (facts.has_containers) {
    steps.push_back({"Bring pots, tubs and bags to the foot of a wall, tall plants laid down.",
                     "Weights gather there: spread them along the wall, not in one place."});
  }
  steps.push_back({"Bring down whatever is loose: tools, cans, slats, spare sheets.", ""});
  steps.push_back({"Take pictures, so that afterwards you know what moved.", ""});
  return steps;
}

std::vector<Step> steps_after_storm(const RoundFacts& facts) {
  std::vector<Step> steps;
  steps.push_back({"Look from below and from the hatch first; go up when the wind is down and the roof is dry.",
                   edge_caution(facts)});
  steps.push_back({"Ceilings of the rooms below: stains, drips, new cracks.",
                   "A stain or a sag is a stop sign: keep off the roof and have it looked at."});
  steps.push_back({"Outlets and gratings: clear them; standing water tells where it is stuck.",
                   "Hands, not hoses under pressure; no reaching over the edge."});
  steps.push_back({"Walk every row: what moved, what lies off its spacers, what is missing.",
                   "What is missing may have hit somebody: look in the street and the yards."});
  steps.push_back({"Ties: log what is torn, with the module and how many, and what still holds as good.", ""});
  if (facts.has_covers || facts.has_nets) {
    steps.push_back({"Cover sheets and nets: torn, flapping, gone. Pin them before the next wind.", ""});
  }
  if (facts.has_raised) steps.push_back({"Spacers and slats: back in line, so that water runs off below.", ""});
  steps.push_back(
      {"After hail: the membrane beside the modules, for dents and splits; leaves for the plants' own hurt.", ""});
  steps.push_back(
      {"Log the storm with its gust, rain and hail, and a look round with its condition, also where all is "
       "well: what was seen in order counts as much as what was torn.",
       ""});
  return steps;
}

TakingOff steps_for_taking_off(const RoundFacts& facts) {
  TakingOff off;
  off.order = {
      {"Ask the roofer what must be free, and for how long. Choose a dry week; stop watering a week or two before.",
       ""},
      {"Mark every module with its label and take a picture of each row.", ""},
      {"Take down nets, pots and whatever stands on the modules.", ""},
      {"Begin at the row that is farthest from the way down, so that nobody walks over bare membrane with a load.",
       edge_caution(facts)},
      {"Cut ties; collect every one: a wire end under a boot goes through the membrane.", ""},
      {"Lift each module off its spacers with a board under it.", lifting_caution(facts)},
      {"Carry down by the stair; on a rope or hoist only with somebody who does that for a living.",
       "Nobody stands below."},
      {"Spread what waits on the ground, in the shade, soaked once a week in summer.",
       "If it waits on the roof: in single layers over walls or beams, as the engineer says."},
      {"Slats and spacers last; sweep the roof, without a shovel.", ""},
  };
  off.re_roofing = {
      {"Flood test and pictures before anything is laid back.", "Water is weight: ask the engineer how deep."},
      {"Ask the roofer in writing for a membrane that resists roots, and for what may lie on it.", ""},
      {"Use the time: replace ties and covers that are near the end of their lives, top up medium, weigh each module.",
       ""},
      {"Lay back over the protection sheet that the roofer names, from the far end towards the way down.",
       lifting_caution(facts)},
  };
  off.disposal.push_back({"Growing medium without plastic in it: garden beds, or composted for a year.", ""});
  if (facts.has_mineral_core) {
    off.disposal.push_back({"Mineral wool: wet it, bag it, to the depot for building waste; it is no compost.",
                            "Fibres itch and are breathed in: mask, gloves, long sleeves, never dry and never swept."});
  }
  if (facts.has_plastic) {
    off.disposal.push_back(
        {"Plastic sheets, nets and felts: shake out, let dry, to the depot; sun-brittle ones crumble, "
         "so bag them before they are moved.",
         ""});
  }
  if (!facts.succulents.empty()) {
    off.disposal.push_back(
        {fmt::format(
             "Fleshy offcuts ({}) root where they fall, even after weeks: dry them out on a sheet in the sun until "
             "they snap, then household waste or a hot compost. Never into nature, a ditch or a field's edge.",
             listed(facts.succulents)),
         ""});
  }
  if (!facts.invasive.empty()) {
    off.disposal.push_back(
        {fmt::format("{}: on a list of this country. Seed, roots and offcuts in closed bags, and as the "
                     "authority says.",
                     listed(facts.invasive)),
         "Carrying or giving away living pieces may be forbidden."});
  }
  off.disposal.push_back({"Untreated slats, canes, jute and coir: reuse, or compost once metal is out.",
                          "Old painted or treated wood is not burnt."});
  return off;
}

}  // namespace houseleek::upkeep
