// The week's list for a terminal of 80 columns, and as a JSON document.
#include "report/week_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/paragraph.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string when_words(const WeekItem& item, const std::string& first_day) {
  if (item.due <= first_day) return item.urgency == 0 ? "TODAY" : "from now on";
  return fmt::format("by {}", item.due);
}

/// Nothing where the sentence before it says it all.
std::string figure_words(const WeekItem& item) {
  if (item.kind == WeekKind::look || item.kind == WeekKind::buy) return "";
  if (!item.figure.value) return item.figure.because.empty() ? "" : capital(fmt::format("{}.", item.figure.because));
  if (!item.figure.range) return fmt::format("{:.0f} {}.", *item.figure.value, item.unit);
  return fmt::format("{:.0f} {} ({:.0f} to {:.0f}).", *item.figure.value, item.unit, item.figure.range->low,
                     item.figure.range->high);
}

}  // namespace

std::string_view week_kind_word(WeekKind kind) {
  switch (kind) {
    case WeekKind::water:
      return "water";
    case WeekKind::storm:
      return "storm";
    case WeekKind::look:
      return "look";
    case WeekKind::lift:
      return "lift";
    case WeekKind::cover:
      return "cover";
    case WeekKind::pot_on:
      return "pot_on";
    case WeekKind::read_off:
      return "read_off";
    case WeekKind::feed:
      return "feed";
    case WeekKind::buy:
      return "buy";
  }
  return "";
}

std::string text_from(const WeekAnswer& answer) {
  std::string text =
      fmt::format("{}{}: the week of {} to {}\n", answer.design_name.empty() ? "This house" : answer.design_name,
                  answer.is_invented ? " (an invented example)" : "", answer.first_day, answer.last_day);
  text += paragraph("", 0, answer.statement);
  std::vector<std::string> said;
  for (const WeekItem& item : answer.items) {
    text +=
        fmt::format("\n{}", paragraph("[ ]", 4, fmt::format("{}: {}", when_words(item, answer.first_day), item.what)));
    if (!item.where.empty()) text += paragraph("", 4, fmt::format("Where: {}.", item.where));
    text += paragraph("", 4, item.why);
    const std::string figure = figure_words(item);
    if (!figure.empty()) text += paragraph("", 4, figure);
    if (!item.caution.empty()) {
      // In full once; the document has it beside every item.
      const bool is_said = std::find(said.begin(), said.end(), item.caution) != said.end();
      if (!is_said) said.push_back(item.caution);
      text += paragraph("", 4, is_said ? std::string("CAUTION: as above.") : fmt::format("CAUTION: {}", item.caution));
    }
    text += fmt::format("    {}\n", item.log_command);
  }
  if (!answer.can_wait.empty()) {
    text += "\nNothing to do for\n";
    for (const std::string& one : answer.can_wait) text += paragraph("  -", 4, one);
  }
  if (!answer.missing.empty()) {
    text += "\nWould make this list better\n";
    for (const std::string& one : answer.missing) text += paragraph("  -", 4, one);
  }
  return text;
}

Json json_from(const WeekAnswer& answer) {
  Json items = Json::array();
  for (const WeekItem& item : answer.items) {
    items.push_back({{"id", item.id},
                     {"kind", week_kind_word(item.kind)},
                     {"urgency", item.urgency},
                     {"due", item.due},
                     {"what", item.what},
                     {"where", item.where.empty() ? Json(nullptr) : Json(item.where)},
                     {"why", item.why},
                     {"figure", json_from(item.figure)},
                     {"unit", item.unit.empty() ? Json(nullptr) : Json(item.unit)},
                     {"caution", item.caution.empty() ? Json(nullptr) : Json(item.caution)},
                     {"log_command", item.log_command}});
  }
  return {{"answer", "week"},
          {"file", answer.file},
          {"design", answer.design_name},
          {"is_invented", answer.is_invented},
          {"engine", {{"version", answer.engine_version}, {"seed", answer.seed}, {"input_hash", answer.input_hash}}},
          {"first_day", answer.first_day},
          {"last_day", answer.last_day},
          {"has_logbook", answer.has_logbook},
          {"can_l", answer.can_l},
          {"water_cans", json_from(answer.water_cans)},
          {"water_minutes", json_from(answer.water_minutes)},
          {"statement", answer.statement},
          {"items", items},
          {"can_wait", answer.can_wait},
          {"missing", answer.missing}};
}

}  // namespace houseleek::report
