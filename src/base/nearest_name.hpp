// Names as people type them: compared without case and doubled spaces, and the nearest known one for a hint.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace houseleek {

/// Lower case (ASCII), inner runs of blanks as one space, none at the ends.
[[nodiscard]] std::string folded_name(std::string_view name);

/// Single-character insertions, removals, changes and swaps of neighbours that turn one text into the other.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b);

/// The known name most like the one typed: one that begins with it (thickness: thickness_mm), else the fewest edits,
/// at most a third of its length. None if nothing is near.
[[nodiscard]] std::optional<std::string> find_nearest_name(std::string_view typed, std::span<const std::string> known);

}  // namespace houseleek
