// Changes to a description that leave every other byte of its text as it is: comments, order and spelling live on.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/parse.hpp"

namespace houseleek::design {

/// Some bytes of a text, and what stands there instead.
struct TextChange {
  std::size_t at = 0;
  std::size_t n_bytes = 0;
  std::string text;
};

/// The text with all changes made; they may not overlap (a contract). Of two at one place the first comes first.
[[nodiscard]] std::string with_changes(std::string_view text, std::vector<TextChange> changes);

/// A text as TOML writes it, in double quotes.
[[nodiscard]] std::string toml_text_from(std::string_view text);

/// key = value in a table of the description: in the place of what is there, else a new line behind the table's own
/// keys (or a new part before the closing brace). `value` is TOML.
[[nodiscard]] TextChange change_key(const RawDesign& description, const TomlNode& table, std::string_view key,
                                    std::string_view value);

/// The value at a path as assumptions have it: recipe[0].spacer.gap_wind_frac, roof.finish.albedo,
/// material[expanded clay].conductivity_w_per_m_k. Tables that are missing on the way are made; a catalogue's material
/// gets a [[material]] of its own at the end; a finish by its name is written out with the other figure it stands for.
/// Errors: nullopt where the path leads to no table of this description, or where what is there is not written in one
/// piece (a table under a header of its own).
[[nodiscard]] std::optional<TextChange> change_figure(const RawDesign& description, const Design& read,
                                                      std::string_view path, std::string_view value);

/// Tables at the end of the text, after an empty line.
[[nodiscard]] TextChange append_tables(const RawDesign& description, std::string_view tables);

}  // namespace houseleek::design
