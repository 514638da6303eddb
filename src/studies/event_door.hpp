// Events into a project's logbook: their words read, and names held against its designs.
#pragma once
#include <cstdint>
#include <string>

#include "base/result.hpp"
#include "base/toml_tree.hpp"
#include "logbook/read_event.hpp"
#include "store/records.hpp"

namespace houseleek::studies {

/// Knows the zone, the currency and the names of a project's newest design; a name of an earlier one is good too.
class EventDoor {
 public:
  /// Errors: StoreError.
  explicit EventDoor(const store::Project& project);
  [[nodiscard]] const std::string& zone() const noexcept { return zone_; }

  /// Errors: issues whose path is the field (see logbook/read_event.hpp); StoreError.
  [[nodiscard]] Result<logbook::Event> read(const logbook::EventWords& words, std::int64_t now_utc_s) const;

 private:
  const store::Project* project_;
  TomlNode newest_;
  std::string zone_;
  std::string currency_;
};

}  // namespace houseleek::studies
