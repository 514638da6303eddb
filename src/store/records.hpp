// What a project holds, row by row: revisions of the design, events of the logbook, results.
#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "logbook/event.hpp"
#include "store/format.hpp"

namespace houseleek::store {

/// A design as it was saved.
struct Revision {
  std::int64_t number = 0;  // from 1
  std::int64_t saved_utc_s = 0;
  std::string toml_text;
  std::string note;
  bool operator==(const Revision&) const = default;
};

struct NewRevision {
  std::string_view toml_text;
  std::string_view note = "";
  std::int64_t now_utc_s = 0;
};

/// On the disk when it returns; its number. Text must hold no zero byte. Errors: StoreError.
[[nodiscard]] std::int64_t add_revision(const Project& project, const NewRevision& revision);

/// Oldest first; every text is checked against its fingerprint. Errors: StoreError.
[[nodiscard]] std::vector<Revision> read_revisions(const Project& project);

/// nullopt where there is none yet. Errors: StoreError.
[[nodiscard]] std::optional<Revision> read_newest_revision(const Project& project);
[[nodiscard]] std::optional<Revision> read_revision(const Project& project, std::int64_t number);

struct NewEvent {
  const logbook::Event& event;
  std::optional<std::int64_t> supersedes = std::nullopt;
  std::int64_t now_utc_s = 0;
};

/// On the disk when it returns; its number. An event that is superseded must be there (a contract: ask read_events
/// first). Errors: StoreError, also where another event has superseded it meanwhile.
[[nodiscard]] std::int64_t add_event(const Project& project, const NewEvent& event);

/// Several at once, none of which takes another's place: all on the disk when it returns, or none. Errors: StoreError.
void add_events(const Project& project, std::span<const logbook::Event> events, std::int64_t now_utc_s);

/// All, in the order of noting; every row is checked against its fingerprint. Errors: StoreError.
[[nodiscard]] std::vector<logbook::EventRecord> read_events(const Project& project);

/// What an engine answered, with all that is needed to make it again.
struct StoredResult {
  std::int64_t number = 0;
  std::int64_t revision = 0;
  std::int64_t made_utc_s = 0;
  std::string command;  // study
  std::string engine_version;
  std::string options_json;
  std::string seed;  // as decimal digits: 64 bits without a sign
  std::string input_hash;
  std::string answer_json;
  bool operator==(const StoredResult&) const = default;
};

/// On the disk when it returns; its number. `number` is not read. Errors: StoreError.
[[nodiscard]] std::int64_t add_result(const Project& project, const StoredResult& result);

/// Oldest first; every row is checked against its fingerprint. Errors: StoreError.
[[nodiscard]] std::vector<StoredResult> read_results(const Project& project);

}  // namespace houseleek::store
