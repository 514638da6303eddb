// Figures with their ranges, words of fixed lists, and where both come from, as catalogue and design write them.
#pragma once
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "base/toml_fields.hpp"
#include "catalogue/words.hpp"

namespace houseleek::catalogue {

/// Who speaks: the catalogue must say source and certainty of every figure; a person may write a number alone.
enum class Entry { catalogue, own };

struct FigureContext {
  Entry entry = Entry::own;
  std::map<std::string, std::string> sources;  // the file's [source]: short word to full reference
};

/// Short words of the file's table [source].
[[nodiscard]] FigureContext read_figure_context(FieldReader& reader, const TableView& root);

/// `source` and `certainty` of a table.
[[nodiscard]] Origin read_origin(FieldReader& reader, const TableView& table, const FigureContext& context);

/// Absent: nullopt and no issue.
[[nodiscard]] std::optional<Spread> read_spread(FieldReader& reader, const TableView& table, const NumberRule& rule,
                                                const FigureContext& context);
/// Absent: an issue.
[[nodiscard]] Spread read_required_spread(FieldReader& reader, const TableView& table, const NumberRule& rule,
                                          const FigureContext& context);

/// A list of different texts with their nodes; absent: empty and no issue.
struct ListedWord {
  std::string word;
  const TomlNode* node = nullptr;
  std::string path;
};
[[nodiscard]] std::vector<ListedWord> read_texts(FieldReader& reader, const TableView& table, std::string_view key);

/// A list of words, each of `choices` and none twice.
template <class E>
[[nodiscard]] std::vector<E> read_words(FieldReader& reader, const TableView& table, std::string_view key,
                                        std::span<const std::pair<std::string_view, E>> choices) {
  std::vector<E> values;
  for (const ListedWord& one : read_texts(reader, table, key)) {
    const auto found =
        std::find_if(choices.begin(), choices.end(), [&one](const auto& choice) { return choice.first == one.word; });
    if (found != choices.end()) {
      values.push_back(found->second);
      continue;
    }
    std::vector<std::string> known;
    for (const auto& choice : choices) known.emplace_back(choice.first);
    add_unknown_choice(reader, *one.node, one.path, known);
  }
  return values;
}

/// Where to point: the field if it is there, else its table.
[[nodiscard]] const TomlNode& member_or_table(const TableView& table, std::string_view key);

}  // namespace houseleek::catalogue
