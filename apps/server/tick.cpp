// What a tick on the week's list notes in the logbook: an item's line of `houseleek log`, as fields to be sent and asked.
#include "tick.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/event_fields.hpp"

namespace houseleek::server {
namespace {

using report::Json;

/// Words that stand in a line for what only the person knows.
constexpr std::array<std::string_view, 7> blanks = {"COUNT",       "DONE",    "LABEL", "LITRES",
                                                    "MILLIMETRES", "MINUTES", "NAME"};

bool is_blank(const std::string& text) { return std::find(blanks.begin(), blanks.end(), text) != blanks.end(); }

const logbook::NumberField* number_field(std::string_view key) {
  const auto fields = logbook::number_fields();
  const auto found = std::find_if(fields.begin(), fields.end(), [key](const auto& one) { return one.key == key; });
  return found == fields.end() ? nullptr : &*found;
}

}  // namespace

Json tick_of(const report::WeekItem& item, const std::string& file) {
  constexpr std::string_view start = "houseleek log ";
  if (!item.log_command.starts_with(start)) return nullptr;
  // Past the file, whose name may hold blanks and quotes.
  const std::size_t at = item.log_command.find(file, start.size());
  const std::size_t end = at == std::string::npos ? at : item.log_command.find(' ', at + file.size());
  if (end == std::string::npos) return nullptr;
  const std::vector<std::string> words = CLI::detail::split_up(item.log_command.substr(end));
  if (words.empty()) return nullptr;
  Json fields = Json::object();
  Json asked = Json::array();
  for (std::size_t i = 1; i + 1 < words.size(); i += 2) {
    std::string key = words[i].substr(std::min<std::size_t>(2, words[i].size()));
    std::replace(key.begin(), key.end(), '-', '_');
    const std::string& text = words[i + 1];
    const logbook::NumberField* number = number_field(key);
    if (number == nullptr && key != "condition" && !is_blank(text)) {
      fields[key] = text;
      continue;
    }
    // A number that is seen is not known before somebody looked; one of litres is a proposal.
    const bool is_open = is_blank(text) || (number != nullptr && words[0] == "looked_at");
    asked.push_back({{"key", key},
                     {"text", is_open ? std::string() : text},
                     {"is_needed", number == nullptr},
                     {"unit", number == nullptr ? std::string() : std::string(number->unit)}});
  }
  return {{"kind", words[0]}, {"fields", std::move(fields)}, {"asked", std::move(asked)}};
}

}  // namespace houseleek::server
