// Numbers of a weather file's rows: the decimal mark, words that stand for no value.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "base/delimited.hpp"
#include "climate/file_body.hpp"

namespace houseleek::climate {
namespace {

/// Values that no column of weather can have, and that loggers write where they have none.
constexpr double missing_values[] = {-99.0, -99.9, -999.0, -999.9, -9999.0};

Issue issue_at(const DelimitedField& field, std::string_view file_name, IssueCode code, std::string_view path) {
  Issue issue;
  issue.code = code;
  issue.path = path;
  issue.file = file_name;
  issue.line = field.line;
  issue.column = field.column;
  issue.value = field.text;
  return issue;
}

class NumberReader {
 public:
  NumberReader(const FileRows& rows, const FileColumns& columns, std::string_view file_name, const FileRules& rules,
               FileReport& report, FileBody& body)
      : rows_(rows), columns_(columns), file_name_(file_name), rules_(rules), report_(report), body_(body) {}

  void read() {
    for (const ColumnUse& use : columns_.uses) {
      if (use.quantity) body_.columns.push_back({use, {}});
    }
    find_mark();
    for (std::size_t row = columns_.first_row; row < rows_.rows.size(); ++row) {
      body_.faults.emplace_back();
      read_row(rows_.rows[row]);
    }
    std::string words;
    for (const auto& [word, n_fields] : n_missing_by_word_) {
      words += fmt::format("{}'{}' in {} fields", words.empty() ? "" : ", ", word, n_fields);
    }
    if (!words.empty()) report_.findings.push_back({"missing values", words, "no column of weather can hold them"});
  }

 private:
  void find_mark() {
    int n_points = 0;
    int n_commas = 0;
    int n_like_thousands = 0;
    const DelimitedField* first_point = nullptr;
    const DelimitedField* first_comma = nullptr;
    for (std::size_t row = columns_.first_row; row < rows_.rows.size(); ++row) {
      for (const NumberColumn& column : body_.columns) {
        if (column.use.at >= rows_.rows[row].size()) continue;
        const DelimitedField& field = rows_.rows[row][column.use.at];
        const std::string_view text = trimmed(field.text);
        const std::size_t comma = text.find(',');
        if (comma != std::string_view::npos) {
          ++n_commas;
          if (first_comma == nullptr) first_comma = &field;
          n_like_thousands += text.size() == comma + 4 && comma > 0 && text[0] != '0' && text != "-0" ? 1 : 0;
        } else if (text.find('.') != std::string_view::npos) {
          ++n_points;
          if (first_point == nullptr) first_point = &field;
        }
      }
    }
    if (rules_.decimal_mark) {
      mark_ = *rules_.decimal_mark == DecimalMark::comma ? ',' : '.';
      report_.findings.push_back({"decimal mark", mark_ == ',' ? "comma" : "point", "fixed under [climate.layout]"});
      return;
    }
    const int n_marks = n_points + n_commas;
    mark_ = n_commas > n_points ? ',' : '.';
    if (n_points > 0 && n_commas > 0) {
      Issue issue = issue_at(mark_ == ',' ? *first_point : *first_comma, file_name_, IssueCode::inconsistent,
                             "climate.layout.decimal_mark");
      issue.message = fmt::format("{} numbers have a decimal point and {} a decimal comma", n_points, n_commas);
      issue.hint = "write all numbers alike, or decimal_mark = \"comma\" under [climate.layout]";
      body_.issues.push_back(std::move(issue));
      return;
    }
    if (n_commas > 0 && n_like_thousands == n_commas) {
      Issue issue = issue_at(*first_comma, file_name_, IssueCode::inconsistent, "climate.layout.decimal_mark");
      issue.message = fmt::format(
          "the comma of {} may be a decimal mark or part thousands: three digits follow it in all {} fields that have "
          "one",
          quoted(first_comma->text), n_commas);
      issue.hint = "write decimal_mark = \"comma\" under [climate.layout], or take commas out of thousands";
      body_.issues.push_back(std::move(issue));
      return;
    }
    report_.findings.push_back({"decimal mark", mark_ == ',' ? "comma" : "point",
                                n_marks == 0 ? std::string("no field has a fraction")
                                             : fmt::format("{} of {} fields with a mark", n_marks, n_marks)});
  }

  void read_row(const DelimitedRow& row) {
    const bool has_empty_tail = row.size() == columns_.n_fields + 1 && trimmed(row.back().text).empty();
    const bool is_whole = row.size() == columns_.n_fields || has_empty_tail;
    body_.line.push_back(row.front().line);
    if (!is_whole) {
      Issue issue = issue_at(row.front(), file_name_, IssueCode::syntax, "");
      issue.value = fmt::format("{}", row.size());
      issue.limit = fmt::format("{}", columns_.n_fields);
      issue.message = fmt::format("this row has {} fields; the others have {}", row.size(), columns_.n_fields);
      body_.issues.push_back(std::move(issue));
    }
    for (NumberColumn& column : body_.columns) {
      column.numbers.push_back(is_whole ? number_of(row[column.use.at], column.use) : FileNumber{});
    }
  }

  FileNumber number_of(const DelimitedField& field, const ColumnUse& use) {
    FileNumber number;
    number.column = field.column;
    const std::string_view text = trimmed(field.text);
    if (text.empty()) return number;
    const bool is_word =
        is_missing_word(text) || std::find(rules_.missing.begin(), rules_.missing.end(), text) != rules_.missing.end();
    if (is_word) {
      ++n_missing_by_word_[std::string(text)];
      return number;
    }
    std::string plain(text);
    if (mark_ == ',') {
      const std::size_t comma = plain.find(',');
      if (comma != std::string::npos && plain.find('.') == std::string::npos) plain[comma] = '.';
    }
    const std::optional<double> value = number_from_text(plain);
    if (!value) {
      Issue issue = issue_at(field, file_name_, IssueCode::wrong_type, info_of(*use.quantity).name);
      issue.message = fmt::format("{} is {}; it must be a number", name_of(use), quoted(field.text));
      issue.hint = "a missing value is an empty field";
      body_.faults.back().push_back(std::move(issue));
      return number;
    }
    if (std::find(std::begin(missing_values), std::end(missing_values), *value) != std::end(missing_values)) {
      ++n_missing_by_word_[std::string(text)];
      return number;
    }
    number.value = *value;
    number.is_known = true;
    return number;
  }

  const FileRows& rows_;
  const FileColumns& columns_;
  std::string_view file_name_;
  const FileRules& rules_;
  FileReport& report_;
  FileBody& body_;
  char mark_ = '.';
  std::map<std::string, int> n_missing_by_word_;
};

}  // namespace

std::string name_of(const ColumnUse& use) {
  if (!use.header.empty()) return use.header;
  return fmt::format("column {} ({})", use.at + 1, info_of(*use.quantity).word);
}

const NumberColumn* FileBody::find(WeatherColumn quantity) const {
  for (const NumberColumn& column : columns) {
    if (column.use.quantity == quantity) return &column;
  }
  return nullptr;
}

void read_numbers(const FileRows& rows, const FileColumns& columns, std::string_view file_name, const FileRules& rules,
                  FileReport& report, FileBody& body) {
  NumberReader(rows, columns, file_name, rules, report, body).read();
}

}  // namespace houseleek::climate
