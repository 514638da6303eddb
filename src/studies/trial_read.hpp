// `houseleek trial read`: the readings of a round typed in, and what is still missing.
#pragma once
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "design/design.hpp"
#include "report/trial_answer.hpp"
#include "store/records.hpp"
#include "studies/weather.hpp"

namespace houseleek::studies {

/// One round: a moment and what was read at each place, as it was typed.
struct RoundWords {
  std::string at;                                             // a moment; empty: now
  std::vector<std::pair<std::string, std::string>> readings;  // place, number
  // Where it was typed, for issues; line 0: on the command line.
  int line = 0;
  std::vector<int> columns;  // of each reading
};

enum class ReadUnit { deg_c, deg_f };

/// Rounds of a table: a header `at` and the places, a row a round; an empty field was not read. Fields parted by comma,
/// semicolon or tab; with semicolon or tab numbers may have a decimal comma.
/// Errors: issues with places in the table.
[[nodiscard]] Result<std::vector<RoundWords>> rounds_from_table(const NamedText& table, const design::Trial& trial);

struct NotedRounds {
  std::int64_t n_noted = 0;
  std::int64_t n_known_before = 0;
};

struct RoundsRequest {
  std::vector<RoundWords> rounds;
  ReadUnit unit = ReadUnit::deg_c;
  std::string who;
  std::string table_name;  // where the rounds were typed; empty: on the command line
  std::int64_t now_utc_s = 0;
};

/// Every reading into the logbook as an event of its own, all of them or none; one that is there with the same value is
/// known. Errors: issues: places that the trial has not, moments without a time of day, numbers; a place that has
/// another value at that moment. StoreError.
[[nodiscard]] Result<NotedRounds> note_rounds(const store::Project& project, const design::Design& design,
                                              std::size_t trial, const RoundsRequest& request);

}  // namespace houseleek::studies
