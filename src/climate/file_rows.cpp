// A weather file's text as rows of fields: characters, comment lines, delimiter.
#include "climate/file_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "base/utf8.hpp"

namespace houseleek::climate {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t n_sample_lines = 2000;
constexpr double least_lead = 1.1;  // of the best delimiter over the next

constexpr std::pair<char, std::string_view> delimiters[] = {
    {',', "comma"}, {';', "semicolon"}, {'\t', "tab"}, {'|', "bar"}, {' ', "blank"}};

/// Every byte above 127 one letter; nothing if the text has bytes that Latin-1 leaves to control.
std::optional<std::string> utf8_from_latin1(std::string_view text, int& n_letters) {
  std::string utf8;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 0x80) {
      if (byte < 0x20 && c != '\t' && c != '\n' && c != '\r') return std::nullopt;
      utf8 += c;
    } else if (byte >= 0xA0) {
      utf8 += static_cast<char>(0xC0U | (byte >> 6U));
      utf8 += static_cast<char>(0x80U | (byte & 0x3FU));
      ++n_letters;
    } else {
      return std::nullopt;
    }
  }
  return utf8;
}

/// First character that is no blank; a line end's return counts as a blank.
char first_sign(std::string_view line) {
  const std::size_t at = line.find_first_not_of(" \t\r");
  return at == std::string_view::npos ? ' ' : line[at];
}

/// Fields of a line, quotes minded, ends of blanks or tabs in a row taken as one where the delimiter is a blank.
std::vector<std::string_view> fields_of_line(std::string_view line, char delimiter) {
  std::vector<std::string_view> fields;
  bool is_inside = false;
  std::size_t begin = 0;
  const auto add = [&](std::size_t end) {
    const std::string_view field = line.substr(begin, end - begin);
    if (delimiter != ' ' || !field.empty()) fields.push_back(field);
  };
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '"') is_inside = !is_inside;
    if (is_inside || line[i] != delimiter) continue;
    add(i);
    begin = i + 1;
  }
  add(line.size());
  return fields;
}

/// Comment lines emptied, so that all others keep their numbers. A comment right above the first row that has as many
/// fields as it names the columns: then only its sign goes.
class CommentEraser {
 public:
  explicit CommentEraser(std::string text) : text_(std::move(text)) {}

  std::string erase() {
    std::size_t last_comment = std::string::npos;
    bool has_row = false;
    for (std::size_t begin = 0; begin < text_.size();) {
      const std::size_t end = std::min(text_.find('\n', begin), text_.size());
      const char sign = first_sign(std::string_view(text_).substr(begin, end - begin));
      if (sign == '#') {
        if (last_comment != std::string::npos) blank(last_comment);
        last_comment = begin;
        ++n_comments_;
      } else if (sign == ' ') {
        blank(begin);
      } else if (!has_row) {
        has_row = true;
        if (last_comment != std::string::npos && names_columns(last_comment, begin, end)) {
          text_[text_.find('#', last_comment)] = ' ';
          last_comment = std::string::npos;
          --n_comments_;
        }
      }
      begin = end + 1;
    }
    if (last_comment != std::string::npos) blank(last_comment);
    return std::move(text_);
  }
  [[nodiscard]] int n_comments() const { return n_comments_; }

 private:
  /// Blanks taken for nothing by the reader of rows would still be a field: the line is left without characters.
  void blank(std::size_t begin) {
    const std::size_t end = std::min(text_.find('\n', begin), text_.size());
    std::fill(text_.begin() + static_cast<std::ptrdiff_t>(begin), text_.begin() + static_cast<std::ptrdiff_t>(end),
              ' ');
  }

  [[nodiscard]] bool names_columns(std::size_t comment, std::size_t row_begin, std::size_t row_end) const {
    const std::string_view all = text_;
    std::string_view comment_line = all.substr(comment, std::min(all.find('\n', comment), all.size()) - comment);
    comment_line = trimmed(comment_line.substr(comment_line.find('#') + 1));
    const std::string_view row = all.substr(row_begin, row_end - row_begin);
    for (const auto& [delimiter, word] : delimiters) {
      const std::vector<std::string_view> fields = fields_of_line(row, delimiter);
      if (fields.size() < 3 || !is_number_or_time(fields.back())) continue;
      if (fields_of_line(comment_line, delimiter).size() == fields.size()) return true;
    }
    return false;
  }

  std::string text_;
  int n_comments_ = 0;
};

struct Candidate {
  char delimiter = ',';
  std::string_view word;
  double score = 0.0;
  int n_lines = 0;  // with the usual number of fields
  int n_all_lines = 0;
  std::size_t n_fields = 0;  // the usual number
};

Candidate judged(char delimiter, std::string_view word, const std::vector<std::string_view>& lines) {
  Candidate candidate = {.delimiter = delimiter, .word = word, .n_all_lines = static_cast<int>(lines.size())};
  struct Count {
    int n_lines = 0;
    int n_plain = 0;
  };
  std::map<std::size_t, Count> counts;
  for (const std::string_view line : lines) {
    const std::vector<std::string_view> fields = fields_of_line(line, delimiter);
    Count& count = counts[fields.size()];
    ++count.n_lines;
    for (const std::string_view field : fields) count.n_plain += is_number_or_time(field) ? 1 : 0;
  }
  for (const auto& [n_fields, count] : counts) {
    if (n_fields < 2) continue;
    const double share = static_cast<double>(count.n_plain) / static_cast<double>(count.n_lines) /
                         static_cast<double>(n_fields) * static_cast<double>(count.n_lines) /
                         static_cast<double>(lines.size());
    if (share <= candidate.score) continue;
    candidate.score = share;
    candidate.n_lines = count.n_lines;
    candidate.n_fields = n_fields;
  }
  return candidate;
}

Issue issue_of_delimiter(std::string_view file_name, std::string message) {
  Issue issue;
  issue.code = IssueCode::inconsistent;
  issue.path = "climate.layout.delimiter";
  issue.file = file_name;
  issue.line = 1;
  issue.column = 1;
  issue.message = std::move(message);
  issue.hint = "write delimiter = \"semicolon\" (or comma, tab, bar, blank) under [climate.layout]";
  return issue;
}

Result<char> find_delimiter(std::string_view text, std::string_view file_name, FileReport& report) {
  std::vector<std::string_view> lines;
  for (std::size_t begin = 0; begin < text.size() && lines.size() < n_sample_lines;) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    std::string_view line = text.substr(begin, end - begin);
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (first_sign(line) != ' ') lines.push_back(line);
    begin = end + 1;
  }
  std::vector<Candidate> candidates;
  for (const auto& [delimiter, word] : delimiters) candidates.push_back(judged(delimiter, word, lines));
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
  const Candidate& best = candidates[0];
  const Candidate& next = candidates[1];
  if (best.score == 0.0) {
    return Unexpected{{issue_of_delimiter(
        file_name, "the fields of a row cannot be told apart: no comma, semicolon, tab, bar or blank parts them")}};
  }
  if (best.score < least_lead * next.score) {
    return Unexpected{{issue_of_delimiter(
        file_name, fmt::format("the fields of a row may be parted by a {} ({} fields) or by a {} ({} fields)",
                               best.word, best.n_fields, next.word, next.n_fields))}};
  }
  report.findings.push_back({"delimiter", std::string(best.word),
                             fmt::format("{} of {} lines have {} fields{}", best.n_lines, best.n_all_lines,
                                         best.n_fields, lines.size() == n_sample_lines ? " (first lines)" : "")});
  return best.delimiter;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::string quoted(std::string_view text) {
  constexpr std::size_t longest = 40;
  return text.size() <= longest ? fmt::format("'{}'", text) : fmt::format("'{}...'", text.substr(0, longest));
}

bool is_missing_word(std::string_view field) {
  constexpr std::string_view words[] = {"", "na", "n/a", "nan", "null", "none", "-", "--", "---"};
  std::string lower;
  for (const char c : trimmed(field)) lower += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return std::find(std::begin(words), std::end(words), lower) != std::end(words);
}

bool is_number_or_time(std::string_view field) {
  field = trimmed(field);
  if (field.size() >= 2 && field.front() == '"' && field.back() == '"') field = field.substr(1, field.size() - 2);
  if (is_missing_word(field)) return true;
  int n_digits = 0;
  int n_marks = 0;   // of decimals
  int n_others = 0;  // signs of dates and times
  int n_letters = 0;
  for (const char c : field) {
    if (c >= '0' && c <= '9') {
      ++n_digits;
    } else if (c == ',') {
      ++n_marks;
    } else if (std::string_view(".:/-+ ").find(c) != std::string_view::npos) {
      ++n_others;
    } else if (std::string_view("TZeEAPMapm").find(c) != std::string_view::npos) {
      ++n_letters;
    } else {
      return false;
    }
  }
  return n_digits > 0 && n_marks <= 1 && n_letters <= 2 && (n_marks == 0 || n_others <= 1);
}

std::string_view word_of_delimiter(char delimiter) {
  for (const auto& [sign, word] : delimiters) {
    if (sign == delimiter) return word;
  }
  return "";
}

Result<FileRows> split_rows(std::string_view text, std::string_view file_name, const FileRules& rules,
                            FileReport& report) {
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark) {
    report.findings.push_back({"characters", "UTF-8", "a byte order mark at the beginning"});
    text.remove_prefix(byte_order_mark.size());
  }
  std::string plain(text);
  if (!is_utf8(text)) {
    int n_letters = 0;
    if (auto utf8 = utf8_from_latin1(text, n_letters)) {
      plain = std::move(*utf8);
      report.findings.push_back({"characters", "Latin-1", fmt::format("{} letters that are no UTF-8", n_letters)});
    }
  }
  CommentEraser eraser(std::move(plain));
  plain = eraser.erase();
  if (eraser.n_comments() > 0) {
    report.findings.push_back({"comment lines", fmt::format("{} left out", eraser.n_comments()), "they begin with #"});
  }
  const Result<char> found =
      rules.delimiter ? Result<char>(*rules.delimiter) : find_delimiter(plain, file_name, report);
  Result<std::vector<DelimitedRow>> parsed = parse_delimited(plain, file_name, found ? found.value() : ',');
  if (!parsed) return Unexpected{parsed.error()};
  FileRows result;
  for (DelimitedRow& row : std::move(parsed).value()) {
    if (found && found.value() == ' ') {
      std::erase_if(row, [](const DelimitedField& field) { return field.text.empty() && !field.was_quoted; });
    }
    const bool is_bare = row.size() <= 1 && (row.empty() || trimmed(row.front().text).empty());
    if (!is_bare) result.rows.push_back(std::move(row));
  }
  if (result.rows.size() < 2) {
    Issue issue;
    issue.code = IssueCode::missing_field;
    issue.file = file_name;
    issue.message = result.rows.empty() ? "the file is empty" : "the file has no rows below its first line";
    issue.hint = "a header line that names the columns, then one row an hour";
    return Unexpected{{std::move(issue)}};
  }
  if (!found) return Unexpected{found.error()};
  result.delimiter = found.value();
  if (rules.delimiter) {
    report.findings.push_back(
        {"delimiter", std::string(word_of_delimiter(*rules.delimiter)), "fixed under [climate.layout]"});
  }
  return result;
}

}  // namespace houseleek::climate
