// A small house for tests of answers: one room, four modules, every figure that matters given.
#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "design/parse.hpp"

namespace houseleek::tests {

/// The text of the design file.
[[nodiscard]] std::string small_design_text();

/// A part of the text to be replaced.
struct Edit {
  std::string from;
  std::string to;
};

/// The text with parts replaced; every `from` must be there exactly once.
[[nodiscard]] std::string edited(std::string text, const std::vector<Edit>& edits);

/// The core made of a wool of its own that no price list knows: "rag wool".
[[nodiscard]] std::vector<Edit> wool_without_a_price();

/// One row of a price list, for edits of the small house.
struct PriceRow {
  std::string name;
  std::string unit;  // "per_m2", "per_m3", "each"
  double price = 0.0;
  double life_years = 0.0;  // 0: not said
};

/// The rows as text, each a [[prices.item]].
[[nodiscard]] std::string price_items(const std::vector<PriceRow>& rows);

/// The design of this text under the shipped catalogue; issues are printed and stop the test program.
[[nodiscard]] design::ValidDesign valid_design(const std::string& toml_text);

}  // namespace houseleek::tests
