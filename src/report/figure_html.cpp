// Figures of a JSON document as markup: every number carries its place in the document and its value in full.
#include "report/figure_html.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "report/notes.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

const Json& node_at(const Json& document, const std::string& pointer) {
  return document.at(Json::json_pointer(pointer));
}

bool has(const Json& node, const char* key) { return node.is_object() && node.contains(key); }

/// Why a figure has no value.
std::string why_of(const Json& figure) {
  if (is_not_yet(figure)) return std::string(not_yet_words);
  return has(figure, "why") ? figure.at("why").get<std::string>() : std::string("not given");
}

bool has_value(const Json& node) {
  if (node.is_number()) return true;
  return has(node, "value") && !node.at("value").is_null();
}

std::string value_pointer(const Json& document, const std::string& pointer) {
  return node_at(document, pointer).is_number() ? pointer : pointer + "/value";
}

std::string note_of_range(const Json& node) {
  if (has(node, "from")) return "range: " + node.at("from").get<std::string>();
  if (has(node, "no_range_because")) return "no range: " + node.at("no_range_because").get<std::string>();
  return "";
}

/// What is to be said below the table about the figure of a cell.
std::string reason_of(const Json& document, const FigureCell& cell) {
  if (cell.pointer.empty()) return "";
  const Json& node = node_at(document, cell.pointer);
  return has_value(node) ? note_of_range(node) : why_of(node);
}

Html cell_of(std::string_view css_class, const Html& content) {
  return element("td", {{"class", std::string(css_class)}}, content);
}

Html matrix_cell(const Json& document, const FigureCell& cell, const Notes& notes) {
  if (cell.pointer.empty()) return cell_of("n", {});
  const Json& node = node_at(document, cell.pointer);
  if (!has_value(node)) return cell_of("n none", html_from("\u2013") + notes.mark(reason_of(document, cell)));
  Html content = number_at(document, value_pointer(document, cell.pointer), cell.form);
  content += notes.mark(reason_of(document, cell));
  if (has(node, "low")) {
    // A dash between a figure and a minus sign would be read as one of them.
    const bool has_minus = node.at("low").get<double>() < 0.0;
    content +=
        element("span", {{"class", "range"}},
                number_at(document, cell.pointer + "/low", cell.form) + html_from(has_minus ? " to " : "\u2013") +
                    number_at(document, cell.pointer + "/high", cell.form));
  }
  return cell_of("n", content);
}

Html row_cells(const Json& document, const FigureRow& row, const Notes& notes) {
  const Json& node = node_at(document, row.cell.pointer);
  const std::string& pointer = row.cell.pointer;
  if (!has_value(node)) {
    return element("td", {{"class", "why"}, {"colspan", "4"}}, html_from(why_of(node)));
  }
  const bool has_range = has(node, "low");
  Html cells = cell_of("n", has_range ? number_at(document, pointer + "/low", row.cell.form) : html_from("\u2013"));
  cells += cell_of("n likely", number_at(document, value_pointer(document, pointer), row.cell.form) +
                                   notes.mark(reason_of(document, row.cell)));
  cells += cell_of("n", has_range ? number_at(document, pointer + "/high", row.cell.form) : html_from("\u2013"));
  return cells + cell_of("u", html_from(row.unit));
}

Html table_in_scroll(const Html& caption, const Html& head, const Html& body, const Notes& notes) {
  const Html table = element(
      "table", {},
      element("caption", {}, caption) + element("thead", {}, element("tr", {}, head)) + element("tbody", {}, body));
  return element("div", {{"class", "scroll"}, {"tabindex", "0"}}, table) + notes.list();
}

Html column_head(const Html& words) { return element("th", {{"scope", "col"}}, words); }
Html row_head(const Html& words) { return element("th", {{"scope", "row"}}, words); }

std::string words_of_key(std::string key) {
  std::replace(key.begin(), key.end(), '_', ' ');
  return key;
}

/// Figures and sentences below a node, in the order of the document.
void collect_parts(const Json& document, const std::string& pointer, const std::string& words,
                   std::vector<FigureRow>& rows, Html& sentences) {
  const Json& node = node_at(document, pointer);
  if (node.is_number() || has(node, "value") || is_not_yet(node)) {
    rows.push_back({html_from(words), "", {pointer}});
  } else if (node.is_string()) {
    sentences += element("p", {}, html_from(words + ": ") + name_from(node.get<std::string>()));
  } else if (node.is_object()) {
    for (const auto& [key, child] : node.items()) {
      collect_parts(document, pointer + "/" + key, words.empty() ? words_of_key(key) : words + ", " + words_of_key(key),
                    rows, sentences);
    }
  } else if (node.is_array()) {
    for (std::size_t i = 0; i < node.size(); ++i) {
      collect_parts(document, fmt::format("{}/{}", pointer, i), fmt::format("{} {}", words, i + 1), rows, sentences);
    }
  }
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) {
    text.replace(at, from.size(), to);
  }
}

}  // namespace

bool is_not_yet(const Json& node) { return has(node, "status") && node.at("status") == "not_yet"; }

Html number_at(const Json& document, const std::string& pointer, Form form) {
  const Json& node = node_at(document, pointer);
  const double value = node.get<double>();
  const std::string text =
      node.is_number_integer() ? node.dump() : number_in_print(form == Form::percent ? 100.0 * value : value);
  Attributes attributes{{"value", node.dump()}, {"data-at", pointer}};
  if (form == Form::percent) attributes.emplace_back("data-form", "percent");
  return element("data", attributes, html_from(text));
}

Html figure_line(const Json& document, const std::string& pointer, std::string_view unit, Form form) {
  const Json& node = node_at(document, pointer);
  if (!has_value(node)) return html_from(why_of(node));
  Html line = number_at(document, value_pointer(document, pointer), form);
  if (!unit.empty()) line += html_from(fmt::format("\u00A0{}", unit));
  if (has(node, "low")) {
    line += html_from(" (") + number_at(document, pointer + "/low", form) + html_from(" to ") +
            number_at(document, pointer + "/high", form) + html_from("; " + node.at("from").get<std::string>() + ")");
  } else if (has(node, "no_range_because")) {
    line += html_from(" (" + note_of_range(node) + ")");
  }
  return line;
}

Html table_of_figures(const Json& document, const Html& caption, const std::vector<FigureRow>& rows) {
  Notes notes;
  for (const FigureRow& row : rows) {
    // A row without a value says why in its own cells.
    if (has_value(node_at(document, row.cell.pointer))) notes.count(reason_of(document, row.cell));
  }
  Html body;
  for (const FigureRow& row : rows) body += element("tr", {}, row_head(row.words) + row_cells(document, row, notes));
  Html head = element("td", {}, {});
  for (const std::string_view words : {"low", "likely", "high", "unit"}) head += column_head(html_from(words));
  return table_in_scroll(caption, head, body, notes);
}

Html table_of_matrix(const Json& document, const Matrix& matrix) {
  Notes notes;
  for (const MatrixRow& row : matrix.rows) {
    for (const FigureCell& cell : row.cells) notes.count(reason_of(document, cell));
  }
  Html head;
  for (const Html& words : matrix.heads) head += column_head(words);
  Html body;
  for (const MatrixRow& row : matrix.rows) {
    Html cells = row_head(row.words);
    for (const FigureCell& cell : row.cells) cells += matrix_cell(document, cell, notes);
    body += element("tr", {}, cells);
  }
  return table_in_scroll(matrix.caption, head, body, notes);
}

Html part_at(const Json& document, const std::string& pointer, std::string_view words) {
  if (is_not_yet(node_at(document, pointer))) {
    return element("p", {{"class", "not-yet"}}, html_from(fmt::format("{}: {}.", words, not_yet_words)));
  }
  std::vector<FigureRow> rows;
  Html content;
  collect_parts(document, pointer, "", rows, content);
  if (!rows.empty()) content += table_of_figures(document, html_from(words), rows);
  return content;
}

std::string sentence_in_print(std::string_view text) {
  std::string sentence(text);
  replace_all(sentence, "degC", "\u00B0C");
  replace_all(sentence, "/m2", "/m\u00B2");
  replace_all(sentence, " m2", " m\u00B2");
  if (!sentence.empty() && sentence.front() >= 'a' && sentence.front() <= 'z') {
    sentence.front() = static_cast<char>(sentence.front() - 'a' + 'A');
  }
  if (!sentence.empty() && sentence.back() != '.') sentence += '.';
  return sentence;
}

}  // namespace houseleek::report
