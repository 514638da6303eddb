// Whole tables of a description, [[recipe.layer]] or [[patch]]: taken out, put in, moved, with every other byte as it was.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "design/edit_text.hpp"

namespace houseleek::design {

/// One step of a path: a key, and which item of a list.
struct PathStep {
  std::string key;
  std::optional<std::size_t> index;
};

/// recipe[0].layer[2].thickness_mm. Errors: nullopt where it is no such path.
[[nodiscard]] std::optional<std::vector<PathStep>> read_path(std::string_view path);

/// The node at a path, or nullptr.
[[nodiscard]] const TomlNode* find_node(const TomlNode& root, const std::vector<PathStep>& path);

/// Takes out a table of a list with all that belongs to it. Comments above its header stay.
/// Errors: nullopt where the table is not written under a header of its own.
[[nodiscard]] std::optional<TextChange> remove_table(const RawDesign& description, const TomlNode& table);

/// A new table [[list]] in front of the item with this index, or behind the last one. `keys` are lines of TOML.
/// Errors: nullopt where the list is written in brackets, or its parent is not there.
[[nodiscard]] std::optional<TextChange> insert_table(const RawDesign& description, const std::vector<PathStep>& list,
                                                     std::size_t index, std::string_view keys);

/// The same list with one item at another index. Errors: nullopt as above, or where there is no such index.
[[nodiscard]] std::optional<std::vector<TextChange>> move_table(const RawDesign& description,
                                                                const std::vector<PathStep>& list, std::size_t from,
                                                                std::size_t to);

/// Takes out a key with its value; the whole line where it is alone on it.
/// Errors: nullopt where it is a table under a header, or not there.
[[nodiscard]] std::optional<TextChange> remove_key(const RawDesign& description, const TomlNode& table,
                                                   std::string_view key);

/// Another line in the place of a key with its value; a comment behind it stays. Errors: as above.
[[nodiscard]] std::optional<TextChange> replace_key(const RawDesign& description, const TomlNode& table,
                                                    std::string_view key, std::string_view words);

/// A value as the person wrote it.
[[nodiscard]] std::string written_value(const RawDesign& description, const TomlNode& value);

}  // namespace houseleek::design
