// The answer of `houseleek plants` for a terminal of 80 columns.
#include "report/plants_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/civil_time.hpp"
#include "base/month_name.hpp"
#include "base/number_words.hpp"
#include "report/chart_parts.hpp"
#include "report/paragraph.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::size_t most_choices = 8;
constexpr std::size_t most_choices_of_purpose = 12;
constexpr std::size_t word_width = 12;
constexpr std::size_t name_width = 30;
constexpr std::size_t month_width = 4;
constexpr std::size_t most_due = 10;

std::string first_clause(const std::string& text) {
  const std::size_t end = text.find(". ");
  return end == std::string::npos ? text : text.substr(0, end + 1);
}

std::string cautions_text(const PlantsAnswer& answer) {
  std::string text;
  for (const catalogue::Caution& caution : answer.cautions) text += fmt::format(" {}", first_clause(caution.text));
  return text.empty() ? "" : paragraph("", 0, "CAUTION:" + text);
}

std::string name_of(const PlantAtPlace& plant) {
  std::string text = plant.common_name.empty() ? plant.name : fmt::format("{} ({})", plant.name, plant.common_name);
  const std::string hazards = hazard_text(plant.hazards);
  if (!hazards.empty()) text += fmt::format(" [CAUTION: {}]", hazards);
  return text;
}

std::string lost_text(const PlantAtPlace& plant) {
  if (!plant.lost_here) return "";
  const planting::OwnRate& rate = *plant.lost_here;
  if (rate.is_too_few) {
    return fmt::format(" Lost on this roof: {:.0f} of {:.0f} planted out, too few to say.", rate.n_events, rate.n_all);
  }
  return fmt::format(" Lost on this roof: {:.0f} of {:.0f} planted out, {:.0f} % ({:.0f} to {:.0f}).", rate.n_events,
                     rate.n_all, 100.0 * rate.share, 100.0 * rate.low, 100.0 * rate.high);
}

/// Why, with what it is good for where a purpose was named.
std::string plant_line(const PlantAtPlace& plant, const std::string& purpose, bool shows_all) {
  std::string text = name_of(plant) + ": ";
  for (const PlantService& one : plant.serves) {
    if (one.purpose == purpose) text += one.text + "; ";
  }
  if (shows_all) {
    for (const planting::Reason& reason : plant.reasons) {
      text += fmt::format("{}{}{}", &reason == &plant.reasons.front() ? "" : "; ",
                          reason.word == planting::Survival::likely ? "" : "AGAINST: ", reason.text);
    }
    text += ".";
  } else {
    text += plant.sentence;
  }
  if (!plant.standing_text.empty()) text += fmt::format(" LISTED: {}.", plant.standing_text);
  text += lost_text(plant);
  const bool is_refused = plant.standing == "refused";
  return paragraph(fmt::format("    {}", is_refused ? std::string("refused") : plant.survival), 4 + word_width, text);
}

/// -7 (-9 to -6)
std::string whole_degrees(const Figure& figure) {
  const auto whole = [](double degrees) { return fmt::format("{:.0f}", std::round(degrees) + 0.0); };
  return fmt::format("{} ({} to {})", whole(*figure.value), whole(figure.range->low), whole(figure.range->high));
}

/// What a plant falls out by, after a number.
std::string_view because_of(std::string_view about) {
  constexpr std::pair<std::string_view, std::string_view> words[] = {{"depth", "too little medium"},
                                                                     {"winter", "the winter"},
                                                                     {"dry", "dry spells"},
                                                                     {"sun", "too little or too much sun"},
                                                                     {"salt", "salt from the sea"}};
  for (const auto& [one, text] : words) {
    if (one == about) return text;
  }
  return about;
}

std::string fallen_text(const PlantsOfPlace& place) {
  std::string text;
  for (const FallenOut& one : place.fallen_out) {
    text += fmt::format("{}{} for {}", text.empty() ? "" : ", ", one.n_plants, because_of(one.about));
  }
  return text;
}

std::string head_of(const PlantsOfPlace& place) {
  const std::string where = place.rooms.empty() ? std::string() : fmt::format(" over {}", joined(place.rooms));
  const std::string many = place.kind != "recipe" ? fmt::format("a bag or tub{}", where)
                           : place.n_modules == 0
                               ? std::string("laid nowhere yet")
                               : fmt::format("{}{}", counted(place.n_modules, "module", "modules"), where);
  std::string text = fmt::format("{:.0f} mm of medium, {}.", place.medium_depth_mm, many);
  if (!place.dry_days.value) {
    text += fmt::format(" Dry spells: {}.", place.dry_days.because);
  } else if (place.dry_days.range->high < 1.0) {
    text += " As it is watered now it never stands dry.";
  } else {
    text += fmt::format(" As it is watered now it stands dry {} in a row in a middle year, in {} ({:.0f} to {:.0f}).",
                        counted(*place.dry_days.value, "day", "days"), place.dry_month, place.dry_days.range->low,
                        place.dry_days.range->high);
  }
  text += fmt::format(" Food from it: {}", place.edible == "yes" ? "nothing known against it" : place.edible);
  for (const std::string& reason : place.edible_because) text += fmt::format("; {}", reason);
  return text + ".";
}

std::string there_text(const PlantsOfPlace& place, const std::string& purpose) {
  if (place.there.empty()) return "  Grows there now: nothing is named in the description\n";
  std::string text = "  Grows there now\n";
  for (const PlantAtPlace& plant : place.there) text += plant_line(plant, purpose, false);
  return text;
}

std::string choices_text(const PlantsOfPlace& place, const std::string& purpose) {
  std::string text =
      fmt::format("Could grow there: {} likely, {} doubtful, {} not", place.n_likely, place.n_doubtful, place.n_no);
  const std::string fallen = fallen_text(place);
  if (!fallen.empty()) text += fmt::format(" ({})", fallen);
  if (place.n_refused > 0) text += fmt::format("; {} refused by a list", place.n_refused);
  text = paragraph("", 2, text + ".");
  const std::size_t most = purpose.empty() ? most_choices : most_choices_of_purpose;
  std::size_t n_shown = 0;
  for (const PlantAtPlace& plant : place.choices) {
    if (plant.survival == "no" || plant.standing == "refused") continue;
    if (n_shown++ >= most) break;
    text += plant_line(plant, purpose, false);
  }
  if (n_shown == 0) {
    text += paragraph(
        "", 4, purpose.empty() ? std::string("None that is new.") : fmt::format("None that serves for {}.", purpose));
  }
  return text;
}

std::string plants_of_mix(const MixAnswer& mix) {
  std::string text;
  for (const MixPlant& plant : mix.plants) {
    text += fmt::format("{}{:.0f} {}", text.empty() ? "" : ", ", plant.n_per_module,
                        plant.common_name.empty() ? plant.name : plant.common_name);
  }
  return text;
}

std::string mixes_text(const PlantsOfPlace& place) {
  const std::string each = place.kind == "recipe" ? "To each module" : "To it";
  std::string text = "  In bloom as long as can be, with the fewest kinds\n";
  if (!place.there.empty()) {
    text += paragraph("    -", 6, "With what grows there: " + place.additions.sentence);
  }
  text += paragraph("    -", 6, "Planted anew: " + place.mix.sentence);
  if (!place.mix.plants.empty()) text += paragraph("", 6, fmt::format("{}: {}.", each, plants_of_mix(place.mix)));
  return text;
}

std::string place_text(const PlantsOfPlace& place, const PlantsAnswer& answer) {
  std::string text = fmt::format("\n{}\n", short_name(place.name, page_width));
  text += paragraph("", 2, head_of(place));
  if (answer.plant.empty()) {
    return text + there_text(place, answer.purpose) + choices_text(place, answer.purpose) + mixes_text(place);
  }
  for (const std::vector<PlantAtPlace>* plants : {&place.there, &place.choices}) {
    for (const PlantAtPlace& plant : *plants) {
      if (plant.name == answer.plant) text += plant_line(plant, answer.purpose, true);
    }
  }
  return text;
}

std::string kept_text(const PlantsAnswer& answer) {
  std::string text = fmt::format("\nInvasive plants\n{}", paragraph("", 2, answer.lists));
  for (const KeptIn& kept : answer.kept_in) {
    text += paragraph("  -", 4, fmt::format("{} in {}: {}.", kept.plant, kept.where, kept.text));
    for (const std::string& step : kept.steps) text += paragraph("    [ ]", 8, step);
    if (!kept.from_wild.empty() && kept.steps.empty()) text += paragraph("", 4, kept.from_wild);
  }
  return text + paragraph("", 2, answer.wild);
}

std::string calendar_text(const PlantsAnswer& answer) {
  if (answer.calendar.empty()) return "";
  std::string text = fmt::format("\nThe year in letters\n{:{}}", "", name_width + 2);
  for (const std::string_view letter : month_letters) text += fmt::format("{:>{}}", letter, month_width);
  text += "\n";
  for (const planting::CalendarRow& row : answer.calendar) {
    text += fmt::format("  {:<{}}", short_name(row.plant, name_width - 2), name_width);
    for (const std::string& letters : row.letters)
      text += fmt::format("{:>{}}", letters.empty() ? "." : letters, month_width);
    text += "\n";
  }
  std::string legend;
  for (const planting::LetterWords& one : planting::letter_words) {
    legend += fmt::format("{}{} {}", legend.empty() ? "" : ", ", one.letter, one.words);
  }
  return text + paragraph("", 2, legend + ".");
}

std::string trees_text(const PlantsAnswer& answer) {
  std::string text;
  for (const TreeInContainer& tree : answer.trees) {
    text += paragraph(
        "  -", 4,
        tree.leave_roof
            ? fmt::format("{} in {}: off the roof by {} ({} to {}): {}", tree.plant, tree.container,
                          text_from_day(tree.leave_roof->day), text_from_day(tree.leave_roof->earliest_day),
                          text_from_day(tree.leave_roof->latest_day), tree.leave_roof->why)
            : fmt::format("{} in {}: say since when it stands there (plant.since), and it gets a date to leave",
                          tree.plant, tree.container));
  }
  return text.empty() ? "" : "\nTrees are guests on a roof\n" + text;
}

std::string nursery_text(const PlantsAnswer& answer) {
  std::string text;
  for (const BatchAnswer& one : answer.batches) {
    text += paragraph("  -", 4, fmt::format("{}: {}", one.batch.name, one.sentence));
  }
  for (const planting::BatchLeftOut& one : answer.left_out) {
    text += paragraph("  -", 4, fmt::format("event {} was left out: {}", one.number, one.why));
  }
  if (!text.empty()) text = "\nWhat is being raised\n" + text;
  if (!answer.due.empty()) {
    text += "\nDue in the nursery\n";
    for (std::size_t i = 0; i < std::min(most_due, answer.due.size()); ++i) {
      const planting::Due& due = answer.due[i];
      text += paragraph(fmt::format("  {}", text_from_day(due.day)), 14,
                        fmt::format("{}: {}; {}", due.batch, due.what, due.why));
    }
  }
  if (answer.raise) text += "\nTo raise\n" + paragraph("", 2, answer.raise->sentence);
  return text;
}

}  // namespace

std::string hazard_text(const std::vector<std::string>& hazards) {
  std::vector<std::string> poisoned;
  std::vector<std::string> others;
  for (const std::string& hazard : hazards) {
    if (hazard.starts_with("poison_")) {
      poisoned.push_back(hazard.substr(7));
    } else if (hazard == "skin") {
      others.emplace_back("sap or hairs burn the skin");
    } else {
      others.push_back(hazard);
    }
  }
  std::string text = poisoned.empty() ? "" : "poisonous to " + joined(poisoned);
  for (const std::string& one : others) text += (text.empty() ? "" : "; ") + one;
  return text;
}

std::string text_from(const PlantsAnswer& answer) {
  std::string text = cautions_text(answer);
  text += paragraph("", 0,
                    fmt::format("{}{}, plants, {}: {}.",
                                answer.design_name.empty() ? "This house" : short_name(answer.design_name, 30),
                                answer.is_invented ? " (INVENTED)" : "", answer.on, answer.statement));
  text += paragraph("", 0,
                    fmt::format("Coldest night once in {:.0f} years: {} degC (in the mean of the years {:.0f}). The "
                                "climate is what growers call {}. Words are likely, doubtful or no; no share is given "
                                "before you have logged losses of your own.",
                                planting::winter_return_years, whole_degrees(answer.coldest_night_c),
                                *answer.coldest_night_mean_c.value, answer.climate));
  for (const PlantsOfPlace& place : answer.places) text += place_text(place, answer);
  if (answer.places.empty()) text += "\nNothing of the description lies over that room.\n";
  text += kept_text(answer);
  if (answer.plant.empty()) text += calendar_text(answer) + trees_text(answer);
  text += nursery_text(answer);
  return text + "\n" +
         paragraph("", 0,
                   "More: --for cool, bloom, bees, food, hold or windbreak; --plant NAME says why one does or does "
                   "not; --raise N --plant NAME --by DAY; --json has every plant with every reason.");
}

}  // namespace houseleek::report
