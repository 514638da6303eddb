// The one door of a design: text in, a complete and checked design out, or every problem with its place.
#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.hpp"
#include "base/toml_tree.hpp"
#include "catalogue/catalogue.hpp"
#include "design/assumption.hpp"
#include "design/design.hpp"

namespace houseleek::design {

/// The file as it stands: well-formed TOML, nothing else known about it.
struct RawDesign {
  std::string text;
  std::string file_name;
  TomlNode root;
};

/// A design that validation has let through.
class ValidDesign {
 public:
  [[nodiscard]] const Design& operator*() const noexcept { return design_; }
  [[nodiscard]] const Design* operator->() const noexcept { return &design_; }
  [[nodiscard]] const std::vector<Assumption>& assumed() const noexcept { return assumed_; }
  [[nodiscard]] const Issues& warnings() const noexcept { return warnings_; }

 private:
  ValidDesign(Design design, std::vector<Assumption> assumed, Issues warnings)
      : design_(std::move(design)), assumed_(std::move(assumed)), warnings_(std::move(warnings)) {}
  friend Result<ValidDesign> validate_design(const RawDesign& raw, const catalogue::Catalogue& catalogue);
  Design design_;
  std::vector<Assumption> assumed_;
  Issues warnings_;
};

/// Size, control bytes, nesting, then TOML; a syntax error alone is reported.
[[nodiscard]] Result<RawDesign> parse_design(std::string_view toml_text, std::string_view file_name);

/// Fields, limits, names, geometry, one with another: all problems in one list, sorted by place.
[[nodiscard]] Result<ValidDesign> validate_design(const RawDesign& raw, const catalogue::Catalogue& catalogue);

/// Both steps.
[[nodiscard]] Result<ValidDesign> read_design(std::string_view toml_text, std::string_view file_name,
                                              const catalogue::Catalogue& catalogue);

}  // namespace houseleek::design
