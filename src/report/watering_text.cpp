// The answer of `houseleek water` for a terminal of 80 columns.
#include "report/watering_text.hpp"

#include <fmt/format.h>

#include "report/chart_parts.hpp"
#include "report/paragraph.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

std::string bullet(const std::string& text) { return paragraph("  -", 4, text); }

std::string labels_words(const StoreNow& store) {
  if (store.labels.empty()) return fmt::format("{} {}{}", store.count, store.what, store.count == 1 ? "" : "s");
  if (store.labels.size() <= 6) return joined(store.labels);
  return fmt::format("{} modules, {} to {}", store.labels.size(), store.labels.front(), store.labels.back());
}

std::string stores_text(const WateringAnswer& answer) {
  std::string text = "\nStores this evening, and how long they last without rain\n";
  for (const StoreNow& store : answer.stores) {
    const std::string where = store.what == "module" ? fmt::format(" ({}, {})", labels_words(store), store.form) : "";
    std::string statement = store.statement;
    if (!where.empty()) statement.insert(store.name.size(), where);
    text += bullet(statement);
    text += paragraph("", 4, "(" + store.driven_by + ")");
    for (const std::string& note : store.notes) text += paragraph("", 4, note);
  }
  if (answer.stores.empty()) text += bullet("No modules and no containers.");
  return text;
}

std::string seasons_text(const WateringAnswer& answer) {
  if (answer.seasons.empty()) return "";
  std::string text = "\nBy season, for this roof\n";
  for (const SeasonRule& rule : answer.seasons) text += bullet(rule.statement);
  return text + paragraph("", 4, answer.seasons_note);
}

std::string barrel_text(const WateringAnswer& answer) {
  if (!answer.barrel) return "";
  return fmt::format("\nA barrel\n{}{}", bullet(fmt::format("Fed by {}.", answer.barrel->catchment)),
                     bullet(answer.barrel->statement));
}

std::string salt_text(const WateringAnswer& answer) {
  std::string text = "\nSalt\n";
  std::vector<std::string> unknown;
  for (const SaltyPlant& plant : answer.salt.plants) {
    if (!answer.salt.water_ds_per_m) break;
    if (plant.threshold_ds_per_m.value)
      text += bullet(plant.statement);
    else
      unknown.push_back(plant.plant);
  }
  if (!unknown.empty()) {
    text += bullet(fmt::format("How much salt they bear is not known to us: {}.", joined(unknown)));
  }
  if (!answer.salt.water_ds_per_m) {
    text += bullet("How salty the water is was not said: --salt 1.2 (mS/cm, from a cheap meter).");
  }
  if (answer.salt.rinse) text += bullet(answer.salt.rinse->statement);
  for (const std::string& statement : answer.salt.statements) text += bullet(statement);
  return text;
}

std::string feeding_text(const WateringAnswer& answer) {
  std::string text = "\nFeeding and topping up\n";
  for (const SettlingLayerAnswer& layer : answer.feeding.layers) text += bullet(layer.statement);
  for (const NitrogenAnswer& one : answer.feeding.nitrogen) text += bullet(one.statement);
  text += bullet(answer.feeding.statement);
  text +=
      bullet(answer.feeding.last_fed.empty() ? "Nothing fed is in a logbook." : "Last fed: " + answer.feeding.last_fed);
  return text;
}

std::string changes_text(const WateringAnswer& answer) {
  std::string text = "\nRaised or flat, by month\n";
  for (const FormMonths& one : answer.changes.recipes) text += bullet(one.statement);
  return text + bullet(answer.changes.not_computed);
}

std::string holiday_text(const WateringAnswer& answer) {
  if (!answer.holiday) return "";
  std::string text = fmt::format("\nFor the neighbour\n{}", bullet(answer.holiday->statement));
  for (const HolidayVisit& visit : answer.holiday->visits) {
    text += bullet(fmt::format("{}: {}, {:.0f} l, {:.0f} cans", visit.day, visit.what, visit.litres, visit.cans));
  }
  return text;
}

}  // namespace

std::string text_from(const WateringAnswer& answer) {
  std::string text = fmt::format("{}{}, {}\n", answer.design_name.empty() ? "This house" : answer.design_name,
                                 answer.is_invented ? " (an invented example)" : "", answer.on);
  std::string cautions;
  for (const catalogue::Caution& caution : answer.cautions) {
    if (caution.when == "always" || caution.when == "watered") cautions += " " + caution.text;
  }
  if (!cautions.empty()) text += paragraph("", 0, "CAUTION:" + cautions);
  text += paragraph("", 0, answer.round.statement);
  text += stores_text(answer);
  text += paragraph("", 2, fmt::format("From: {}.", joined(answer.known)));
  for (const std::string& missing : answer.missing) text += paragraph("", 2, "Would narrow it: " + missing + ".");
  text += holiday_text(answer) + seasons_text(answer) + barrel_text(answer) + salt_text(answer) + feeding_text(answer) +
          changes_text(answer);
  return text;
}

}  // namespace houseleek::report
