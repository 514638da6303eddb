// Delimited text (CSV) with the place of every field: one pass over the characters.
#include "base/delimited.hpp"

#include <fast_float/fast_float.h>

#include <cmath>

#include "base/utf8.hpp"

namespace houseleek {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

/// Walks the text character by character and knows the line and column it stands on.
class Walker {
 public:
  explicit Walker(std::string_view text) : text_(text) {}
  [[nodiscard]] bool is_at_end() const { return at_ >= text_.size(); }
  [[nodiscard]] char here() const { return text_[at_]; }
  [[nodiscard]] bool is_line_end() const {
    return here() == '\n' || (here() == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n');
  }
  [[nodiscard]] int line() const { return line_; }
  [[nodiscard]] int column() const { return column_; }
  /// The whole character here; empty if it is no text.
  [[nodiscard]] std::string_view character() const {
    const std::size_t n_bytes = character_bytes(text_, at_);
    if (n_bytes == 1 && (static_cast<unsigned char>(here()) < 0x20U || here() == 0x7F) && here() != '\t') return {};
    return text_.substr(at_, n_bytes);
  }
  void step(std::size_t n_bytes) {
    at_ += n_bytes;
    ++column_;
  }
  void step_line_end() {
    at_ += here() == '\r' ? 2 : 1;
    ++line_;
    column_ = 1;
  }
  void skip_byte_order_mark() {
    if (text_.substr(0, byte_order_mark.size()) == byte_order_mark) at_ = byte_order_mark.size();
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 1;
  int column_ = 1;
};

class Reader {
 public:
  Reader(std::string_view text, std::string_view file_name, char delimiter)
      : walker_(text), file_name_(file_name), delimiter_(delimiter) {}

  Result<std::vector<DelimitedRow>> read() {
    walker_.skip_byte_order_mark();
    while (!walker_.is_at_end()) {
      if (walker_.is_line_end()) {
        walker_.step_line_end();
        continue;
      }
      DelimitedRow row;
      do {
        row.push_back(read_field());
        if (!is_text_) return Unexpected{{issues_.back()}};
      } while (take_delimiter());
      rows_.push_back(std::move(row));
      if (!walker_.is_at_end()) walker_.step_line_end();
    }
    if (!issues_.empty()) return Unexpected{std::move(issues_)};
    return std::move(rows_);
  }

 private:
  bool take_delimiter() {
    if (walker_.is_at_end() || walker_.is_line_end()) return false;
    walker_.step(1);  // a field stops nowhere else
    return true;
  }

  DelimitedField read_field() {
    DelimitedField field;
    field.line = walker_.line();
    field.column = walker_.column();
    if (!walker_.is_at_end() && walker_.here() == '"') {
      field.was_quoted = true;
      read_quoted(field);
      read_plain(field, "there are characters behind a closing quote");
    } else {
      read_plain(field, "");
    }
    return field;
  }

  /// Up to and with the closing quote; line ends inside are part of the field.
  void read_quoted(DelimitedField& field) {
    walker_.step(1);
    while (!walker_.is_at_end()) {
      if (walker_.is_line_end()) {
        field.text += '\n';
        walker_.step_line_end();
      } else if (walker_.here() == '"') {
        walker_.step(1);
        if (walker_.is_at_end() || walker_.here() != '"') return;
        field.text += '"';
        walker_.step(1);
      } else if (!take_character(field)) {
        return;
      }
    }
    report(field.line, field.column, "a quote is opened here and never closed", "close it, or leave the quotes away");
  }

  /// Up to the next delimiter or line end; `complaint` if there should be nothing.
  void read_plain(DelimitedField& field, std::string_view complaint) {
    while (is_text_ && !walker_.is_at_end() && !walker_.is_line_end() && walker_.here() != delimiter_) {
      if (!complaint.empty()) {
        report(walker_.line(), walker_.column(), complaint, "a quote inside a quoted field is written twice");
        complaint = "";
      } else if (walker_.here() == '"' && !field.was_quoted) {
        report(walker_.line(), walker_.column(), "there is a quote inside a field that does not start with one",
               "put the whole field in quotes and write the inner quote twice");
      }
      if (!take_character(field)) return;
    }
  }

  bool take_character(DelimitedField& field) {
    const std::string_view character = walker_.character();
    if (character.empty()) {
      is_text_ = false;
      report(walker_.line(), walker_.column(), "there is a byte here that is no text",
             "save the file as plain text, UTF-8");
      return false;
    }
    field.text += character;
    walker_.step(character.size());
    return true;
  }

  void report(int line, int column, std::string_view message, std::string_view hint) {
    Issue issue;
    issue.code = IssueCode::syntax;
    issue.file = file_name_;
    issue.line = line;
    issue.column = column;
    issue.message = message;
    issue.hint = hint;
    issues_.push_back(std::move(issue));
  }

  Walker walker_;
  std::string_view file_name_;
  char delimiter_;
  std::vector<DelimitedRow> rows_;
  Issues issues_;
  bool is_text_ = true;
};

}  // namespace

Result<std::vector<DelimitedRow>> parse_delimited(std::string_view text, std::string_view file_name, char delimiter) {
  return Reader(text, file_name, delimiter).read();
}

std::optional<double> number_from_text(std::string_view text) {
  constexpr std::string_view blanks = " \t";
  const std::size_t first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return std::nullopt;
  text = text.substr(first, text.find_last_not_of(blanks) - first + 1);
  double value = 0.0;
  const auto [end, error] = fast_float::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace houseleek
