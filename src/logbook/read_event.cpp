// An event from words, checked: every problem at once; and back into words.
#include "logbook/read_event.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/delimited.hpp"
#include "base/nearest_name.hpp"
#include "base/utf8.hpp"
#include "base/zone.hpp"
#include "logbook/event_fields.hpp"

namespace houseleek::logbook {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

std::vector<std::string> all_keys() {
  std::vector<std::string> keys = {"at"};
  for (const TextField& field : text_fields()) keys.emplace_back(field.key);
  for (const NumberField& field : number_fields()) keys.emplace_back(field.key);
  for (const DayField& field : day_fields()) keys.emplace_back(field.key);
  return keys;
}

class EventReader {
 public:
  EventReader(const EventWords& words, const NotedWhere& where) : words_(words), where_(where) {}

  Result<Event> read() {
    const std::optional<EventKind> kind = kind_from_text(words_.kind);
    if (!kind) {
      std::vector<std::string> known;
      for (const KindRule& rule : kind_rules()) known.emplace_back(rule.word);
      return Unexpected{{unknown("kind", words_.kind, "an event is one of: ", known)}};
    }
    rule_ = &rule_of(*kind);
    event_.kind = *kind;
    event_.zone = where_.zone;
    event_.at = moment_at(where_.now_utc_s, where_.zone);
    for (const auto& [key, text] : words_.fields) {
      const bool is_twice = std::find(seen_.begin(), seen_.end(), key) != seen_.end();
      if (is_twice) {
        add(IssueCode::inconsistent, key, text, "", fmt::format("{} is given twice", key), "");
      } else {
        seen_.push_back(key);
        read_field(key, text);
      }
    }
    if (event_.cost && event_.currency.empty()) event_.currency = where_.currency;
    check_wants();
    check_together();
    if (!issues_.empty()) return Unexpected{std::move(issues_)};
    return std::move(event_);
  }

 private:
  void add(IssueCode code, std::string_view path, std::string_view value, std::string limit, std::string message,
           std::string hint) {
    Issue issue;
    issue.code = code;
    issue.path = path;
    issue.value = value;
    issue.limit = std::move(limit);
    issue.message = std::move(message);
    issue.hint = std::move(hint);
    issues_.push_back(std::move(issue));
  }

  [[nodiscard]] static Issue unknown(std::string_view path, const std::string& value, const std::string& before_list,
                                     const std::vector<std::string>& known) {
    Issue issue;
    issue.code = IssueCode::unknown_name;
    issue.path = path;
    issue.value = value;
    issue.limit = joined(known);
    issue.message = fmt::format("{} \"{}\" is not known", path, value);
    const std::optional<std::string> nearest = find_nearest_name(value, known);
    issue.hint = nearest ? fmt::format("did you mean \"{}\"?", *nearest) : before_list + joined(known);
    return issue;
  }

  void read_field(const std::string& key, const std::string& text) {
    if (key == "at") return read_at(text);
    for (const TextField& field : text_fields()) {
      if (field.key == key) return is_used(key, text) ? read_text(field, text) : void();
    }
    for (const NumberField& field : number_fields()) {
      if (field.key == key) return is_used(key, text) ? read_number(field, text) : void();
    }
    for (const DayField& field : day_fields()) {
      if (field.key == key) return is_used(key, text) ? read_day(field, text) : void();
    }
    issues_.push_back(unknown("field", key, "fields are: ", all_keys()));
    issues_.back().code = IssueCode::unknown_field;
  }

  bool is_used(const std::string& key, const std::string& text) {
    if (has_use_for(*rule_, key)) return true;
    std::vector<std::string> used;
    for (const std::string& one : all_keys()) {
      if (has_use_for(*rule_, one)) used.push_back(one);
    }
    add(IssueCode::unknown_field, key, text, joined(used),
        fmt::format("{} does not belong to an event \"{}\"", key, rule_->word),
        fmt::format("it may have: {}", joined(used)));
    return false;
  }

  void read_at(const std::string& text) {
    const Result<CivilMoment> moment = moment_from_text(text, where_.zone, "at");
    if (!moment) {
      issues_.insert(issues_.end(), moment.error().begin(), moment.error().end());
      return;
    }
    event_.at = moment.value();
    // The clock of the machine may be wrong by hours, and the place may be elsewhere; a slip of the year is caught.
    if (event_.at.utc_s > where_.now_utc_s + n_seconds_in_civil_day) {
      const std::string now = text_from_moment(moment_at(where_.now_utc_s, where_.zone));
      add(IssueCode::out_of_range, "at", text, "not after " + now,
          fmt::format("at is {}, which is still to come; now it is {}", text, now), "is the year right?");
    }
  }

  void read_text(const TextField& field, const std::string& text) {
    const std::string key(field.key);
    if (text.size() > longest_text_bytes) {
      return add(IssueCode::out_of_range, key, "", fmt::format("at most {} bytes", longest_text_bytes),
                 fmt::format("{} has {} bytes; it may have at most {}", key, text.size(), longest_text_bytes), "");
    }
    const auto is_control = [](char c) { return static_cast<unsigned char>(c) < 0x20U || c == 0x7F; };
    if (std::any_of(text.begin(), text.end(), is_control) || !is_utf8(text)) {
      return add(IssueCode::wrong_type, key, "", "text in UTF-8 on one line",
                 fmt::format("{} holds a control character, or bytes that are no UTF-8", key), "write it on one line");
    }
    if (text.empty()) {
      return add(IssueCode::missing_field, key, "", "", fmt::format("{} is empty", key), "leave it away instead");
    }
    const std::vector<std::string_view> choices = words_of(field.choices);
    if (!choices.empty() && std::find(choices.begin(), choices.end(), text) == choices.end()) {
      issues_.push_back(unknown(key, text, "it is one of: ", {choices.begin(), choices.end()}));
      return;
    }
    const auto is_capital = [](char c) { return c >= 'A' && c <= 'Z'; };
    if (field.key == "currency" && (text.size() != 3 || !std::all_of(text.begin(), text.end(), is_capital))) {
      return add(IssueCode::wrong_type, key, text, "three capital letters",
                 fmt::format("currency is \"{}\"; it must be three capital letters", text), "EUR, for example");
    }
    event_.*field.member = text;
  }

  void read_number(const NumberField& field, const std::string& text) {
    const std::string key(field.key);
    const std::string unit = field.unit.empty() ? "" : fmt::format(" {}", field.unit);
    const std::string limit = fmt::format("from {:.10g} to {:.10g}{}{}", field.least, field.most, unit,
                                          field.is_whole ? ", a whole number" : "");
    const std::optional<double> number = number_from_text(text);
    if (!number) {
      return add(IssueCode::wrong_type, key, text, limit, fmt::format("{} is \"{}\"; it must be a number", key, text),
                 fmt::format("{}{}; a decimal point, no unit behind it", field.meaning,
                             field.unit.empty() ? "" : fmt::format(", in {}", field.unit)));
    }
    if (*number < field.least || *number > field.most || (field.is_whole && *number != std::floor(*number))) {
      return add(IssueCode::out_of_range, key, text, limit, fmt::format("{} is {}; it must be {}", key, text, limit),
                 std::string(field.meaning));
    }
    event_.*field.member = *number == 0.0 ? 0.0 : *number;  // no minus sign before zero
  }

  void read_day(const DayField& field, const std::string& text) {
    const std::optional<std::int64_t> day = day_from_text(text);
    if (!day) {
      return add(IssueCode::wrong_type, field.key, text, "a date",
                 fmt::format("{} is \"{}\"; it must be a date", field.key, text), "2026-07-03, for example");
    }
    event_.*field.member = *day;
  }

  void check_wants() {
    for (const std::string_view wanted : words_of(rule_->wants)) {
      const std::vector<std::string_view> keys = words_of(wanted, '|');
      const auto is_given = [this](std::string_view key) {
        return std::find(seen_.begin(), seen_.end(), key) != seen_.end();
      };
      if (std::any_of(keys.begin(), keys.end(), is_given)) continue;
      std::string list;
      for (const std::string_view key : keys) list += (list.empty() ? "" : " or ") + std::string(key);
      add(IssueCode::missing_field, keys.front(), "", "", fmt::format("an event \"{}\" wants {}", rule_->word, list),
          std::string(rule_->meaning));
    }
  }

  void check_together() {
    if (event_.cost && event_.currency.empty()) {
      add(IssueCode::missing_field, "currency", "", "three capital letters", "a cost wants its currency",
          "EUR, for example");
    }
    if (event_.first_day && event_.last_day && *event_.last_day < *event_.first_day) {
      add(IssueCode::inconsistent, "last_day", text_from_day(*event_.last_day), "",
          fmt::format("last_day {} is before first_day {}", text_from_day(*event_.last_day),
                      text_from_day(*event_.first_day)),
          "");
    }
  }

  const EventWords& words_;
  const NotedWhere& where_;
  const KindRule* rule_ = nullptr;
  Event event_;
  std::vector<std::string> seen_;
  Issues issues_;
};

}  // namespace

Result<Event> read_event(const EventWords& words, const NotedWhere& where) { return EventReader(words, where).read(); }

std::vector<std::pair<std::string, std::string>> fields_of(const Event& event) {
  std::vector<std::pair<std::string, std::string>> fields = {{"at", text_from_moment(event.at)}, {"zone", event.zone}};
  for (const TextField& field : text_fields()) {
    if (!(event.*field.member).empty()) fields.emplace_back(field.key, event.*field.member);
  }
  for (const NumberField& field : number_fields()) {
    if (event.*field.member) fields.emplace_back(field.key, fmt::format("{}", *(event.*field.member)));
  }
  for (const DayField& field : day_fields()) {
    if (event.*field.member) fields.emplace_back(field.key, text_from_day(*(event.*field.member)));
  }
  return fields;
}

}  // namespace houseleek::logbook
