// `houseleek trial read`: the readings of a round typed in, and what is still missing.
#include "studies/trial_read.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/contract.hpp"
#include "base/delimited.hpp"
#include "base/nearest_name.hpp"
#include "logbook/read_event.hpp"

namespace houseleek::studies {
namespace {

std::vector<std::string> place_names(const design::Trial& trial) {
  std::vector<std::string> names;
  for (const design::TrialPlace& place : trial.places) names.push_back(place.name);
  return names;
}

std::string joined(const std::vector<std::string>& names) {
  std::string all;
  for (const std::string& name : names) all += (all.empty() ? "" : ", ") + name;
  return all;
}

Issue issue_of(IssueCode code, std::string path, std::string value, std::string message, std::string hint) {
  Issue issue;
  issue.code = code;
  issue.path = std::move(path);
  issue.value = std::move(value);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

const design::TrialPlace* find_place(const design::Trial& trial, std::string_view name) {
  for (const design::TrialPlace& place : trial.places) {
    if (folded_name(place.name) == folded_name(name)) return &place;
  }
  return nullptr;
}

Issue unknown_place(const design::Trial& trial, const std::string& name) {
  const std::vector<std::string> known = place_names(trial);
  const std::optional<std::string> nearest = find_nearest_name(name, known);
  Issue issue = issue_of(
      IssueCode::unknown_name, "place", name, fmt::format("the trial has no place \"{}\"", name),
      nearest ? fmt::format("did you mean \"{}\"?", *nearest) : fmt::format("the trial has: {}", joined(known)));
  issue.limit = joined(known);
  return issue;
}

/// The sign between fields: the one that the header has most of.
char delimiter_of(std::string_view text) {
  const std::string_view header = text.substr(0, text.find('\n'));
  char best = ',';
  std::ptrdiff_t most = 0;
  for (const char sign : {',', ';', '\t'}) {
    const auto n = std::count(header.begin(), header.end(), sign);
    if (n > most) {
      most = n;
      best = sign;
    }
  }
  return best;
}

/// An event of one reading.
class RoundReader {
 public:
  RoundReader(const store::Project& project, const design::Design& design, const design::Trial& trial,
              const RoundsRequest& request)
      : design_(design), trial_(trial), request_(request), before_(store::read_events(project)) {}

  void take(const RoundWords& round) {
    for (std::size_t i = 0; i < round.readings.size(); ++i) {
      const auto& [name, text] = round.readings[i];
      const std::size_t n_before = issues_.size();
      take(round, name, text);
      for (std::size_t k = n_before; k < issues_.size(); ++k) {
        issues_[k].file = request_.table_name;
        issues_[k].line = round.line;
        issues_[k].column = i < round.columns.size() ? round.columns[i] : 0;
      }
    }
  }

  [[nodiscard]] const std::vector<logbook::Event>& events() const { return events_; }
  [[nodiscard]] const Issues& issues() const { return issues_; }
  [[nodiscard]] std::int64_t n_known_before() const { return n_known_before_; }

 private:
  void take(const RoundWords& round, const std::string& name, const std::string& text) {
    const design::TrialPlace* place = find_place(trial_, name);
    if (place == nullptr) {
      issues_.push_back(unknown_place(trial_, name));
      return;
    }
    const bool is_room = std::any_of(design_.rooms.begin(), design_.rooms.end(),
                                     [place](const design::Room& room) { return room.name == place->name; });
    logbook::EventWords words{"read_off", {}};
    if (!round.at.empty()) words.fields.emplace_back("at", round.at);
    words.fields.emplace_back(is_room ? "room" : "module", place->name);
    std::string number = text;
    if (request_.unit == ReadUnit::deg_f) {
      const std::optional<double> value = number_from_text(text);
      // What is no number is refused below, as it was typed.
      if (value) number = fmt::format("{}", (*value - 32.0) * 5.0 / 9.0);
    }
    words.fields.emplace_back("temperature_c", number);
    if (!request_.who.empty()) words.fields.emplace_back("who", request_.who);
    Result<logbook::Event> event =
        logbook::read_event(words, {design_.site.time_zone, request_.now_utc_s, design_.prices.currency});
    if (!event) {
      for (Issue issue : event.error()) {
        issue.message = fmt::format("{}: {}", place->name, issue.message);
        issues_.push_back(std::move(issue));
      }
      return;
    }
    if (!event.value().at.is_time_known) {
      issues_.push_back(issue_of(IssueCode::missing_field, "at", round.at,
                                 fmt::format("{}: {} says no time of day", place->name, round.at),
                                 "2026-07-03T06:10: mornings and afternoons are told apart by it"));
      return;
    }
    keep(*place, event.value());
  }

  void keep(const design::TrialPlace& place, const logbook::Event& event) {
    const auto is_same_look = [&event](const logbook::Event& other) {
      return other.kind == event.kind && other.at.utc_s == event.at.utc_s && other.module == event.module &&
             other.room == event.room;
    };
    const auto twice = std::find_if(events_.begin(), events_.end(), is_same_look);
    if (twice != events_.end()) {
      issues_.push_back(issue_of(IssueCode::inconsistent, place.name, "",
                                 fmt::format("{} is read twice at {}", place.name, text_from_moment(event.at)),
                                 "give one value, or the second look its own time"));
      return;
    }
    for (const logbook::EventRecord& record : before_) {
      if (record.superseded_by || !is_same_look(record.event)) continue;
      if (record.event.temperature_c == event.temperature_c) {
        ++n_known_before_;
        return;
      }
      issues_.push_back(
          issue_of(IssueCode::inconsistent, place.name, fmt::format("{}", *event.temperature_c),
                   fmt::format("{} has {} degC at {} already, as event {}", place.name,
                               record.event.temperature_c.value_or(0.0), text_from_moment(event.at), record.number),
                   fmt::format("if that was wrong: houseleek log PROJECT read_off --corrects {} --temperature-c {}",
                               record.number, *event.temperature_c)));
      return;
    }
    events_.push_back(event);
  }

  const design::Design& design_;
  const design::Trial& trial_;
  const RoundsRequest& request_;
  std::vector<logbook::EventRecord> before_;
  std::vector<logbook::Event> events_;
  std::int64_t n_known_before_ = 0;
  Issues issues_;
};

}  // namespace

Result<std::vector<RoundWords>> rounds_from_table(const NamedText& table, const design::Trial& trial) {
  const char delimiter = delimiter_of(table.text);
  const Result<std::vector<DelimitedRow>> rows = parse_delimited(table.text, table.name, delimiter);
  if (!rows) return Unexpected{rows.error()};
  Issues issues;
  const auto add = [&](const DelimitedField& at, Issue issue) {
    issue.file = table.name;
    issue.line = at.line;
    issue.column = at.column;
    issue.value = at.text;
    issues.push_back(std::move(issue));
  };
  const std::string example = fmt::format("at{0}{1}", delimiter, joined(place_names(trial)));
  if (rows.value().empty()) {
    Issue issue = issue_of(IssueCode::missing_field, "at", "", "the table is empty", "its first line: " + example);
    issue.file = table.name;
    issue.line = 1;
    issue.column = 1;
    return Unexpected{{issue}};
  }
  const DelimitedRow& header = rows.value().front();
  if (folded_name(header.front().text) != "at") {
    add(header.front(), issue_of(IssueCode::missing_field, "at", "",
                                 fmt::format("the first column is \"{}\"; it must be \"at\"", header.front().text),
                                 "the table's first line: " + example));
  }
  std::vector<std::string> seen;
  for (std::size_t i = 1; i < header.size(); ++i) {
    if (find_place(trial, header[i].text) == nullptr) add(header[i], unknown_place(trial, header[i].text));
    if (std::find(seen.begin(), seen.end(), folded_name(header[i].text)) != seen.end()) {
      add(header[i], issue_of(IssueCode::inconsistent, "place", "",
                              fmt::format("\"{}\" heads two columns", header[i].text), "one column for each place"));
    }
    seen.push_back(folded_name(header[i].text));
  }
  if (header.size() < 2) {
    add(header.front(),
        issue_of(IssueCode::missing_field, "place", "", "the table has no place", "its first line: " + example));
  }
  std::vector<RoundWords> rounds;
  for (std::size_t r = 1; r < rows.value().size(); ++r) {
    const DelimitedRow& row = rows.value()[r];
    if (row.size() > header.size()) {
      add(row[header.size()],
          issue_of(IssueCode::inconsistent, "", "",
                   fmt::format("this row has {} fields; the first line has {}", row.size(), header.size()),
                   delimiter == ',' ? "numbers with a decimal comma? part the fields by ;" : ""));
      continue;
    }
    RoundWords round;
    round.at = row.front().text;
    round.line = row.front().line;
    if (folded_name(round.at).empty()) {
      add(row.front(), issue_of(IssueCode::missing_field, "at", "", "this row says no moment", "2026-07-03T06:10"));
      continue;
    }
    for (std::size_t i = 1; i < row.size(); ++i) {
      std::string number = row[i].text;
      if (folded_name(number).empty()) continue;
      if (delimiter != ',') std::replace(number.begin(), number.end(), ',', '.');
      round.readings.emplace_back(header[i].text, number);
      round.columns.push_back(row[i].column);
    }
    rounds.push_back(std::move(round));
  }
  if (!issues.empty()) return Unexpected{std::move(issues)};
  return rounds;
}

Result<NotedRounds> note_rounds(const store::Project& project, const design::Design& design, std::size_t trial,
                                const RoundsRequest& request) {
  RoundReader reader(project, design, design.trials[trial], request);
  for (const RoundWords& round : request.rounds) reader.take(round);
  if (!reader.issues().empty()) return Unexpected{reader.issues()};
  NotedRounds noted;
  noted.n_known_before = reader.n_known_before();
  noted.n_noted = static_cast<std::int64_t>(reader.events().size());
  if (!reader.events().empty()) store::add_events(project, reader.events(), request.now_utc_s);
  return noted;
}

}  // namespace houseleek::studies
