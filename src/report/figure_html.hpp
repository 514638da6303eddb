// Figures of a JSON document as markup: every number carries its place in the document and its value in full.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "report/html.hpp"
#include "report/issue_json.hpp"

namespace houseleek::report {

enum class Form { plain, percent };

inline constexpr std::string_view not_yet_words = "not computed yet";

/// A field that later work owns, as report::not_yet makes it.
[[nodiscard]] bool is_not_yet(const Json& node);

/// The number at a JSON pointer, short for reading: <data value="34.0512" data-at="/house/bare/...">34.1</data>.
/// Errors: the library's exception where there is no number.
[[nodiscard]] Html number_at(const Json& document, const std::string& pointer, Form form = Form::plain);

/// A figure within a line: 1.68 kN/m2 (1.40 to 1.96, from ...), or with why it has no range or no value.
[[nodiscard]] Html figure_line(const Json& document, const std::string& pointer, std::string_view unit,
                               Form form = Form::plain);

struct FigureCell {
  std::string pointer;  // empty: an empty cell
  Form form = Form::plain;
};

/// One figure a row: low, likely, high, unit. Reasons stand once below the table.
struct FigureRow {
  Html words;
  std::string unit;
  FigureCell cell;
};
[[nodiscard]] Html table_of_figures(const Json& document, const Html& caption, const std::vector<FigureRow>& rows);

/// Several figures a row, ranges below the values.
struct MatrixRow {
  Html words;
  std::vector<FigureCell> cells;
};
struct Matrix {
  Html caption;
  std::vector<Html> heads;  // the first one heads the rows
  std::vector<MatrixRow> rows;
};
[[nodiscard]] Html table_of_matrix(const Json& document, const Matrix& matrix);

/// Anything in a document that has no page of its own yet: its figures as a table, its sentences above; or that it is
/// not computed yet.
[[nodiscard]] Html part_at(const Json& document, const std::string& pointer, std::string_view words);

/// Units and signs as print has them: degC and /m2 of the terminal's sentences; a capital first, a full stop last.
[[nodiscard]] std::string sentence_in_print(std::string_view text);

}  // namespace houseleek::report
