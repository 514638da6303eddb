// A look at the bytes of a TOML text before any parser sees them: size, control bytes, line length, nesting.
#include "base/toml_scan.hpp"

#include <fmt/format.h>

#include "base/utf8.hpp"

namespace houseleek {
namespace {

struct Finding {
  TextPlace place;
  std::string value;
  std::string limit;
  std::string message;
  std::string hint;
  IssueCode code = IssueCode::syntax;
};

Issue issue_from_finding(Finding finding, std::string_view file_name) {
  Issue issue;
  issue.code = finding.code;
  issue.file = std::string(file_name);
  issue.line = finding.place.line;
  issue.column = finding.place.column;
  issue.value = std::move(finding.value);
  issue.limit = std::move(finding.limit);
  issue.message = std::move(finding.message);
  issue.hint = std::move(finding.hint);
  return issue;
}

std::optional<Finding> find_bad_bytes(std::string_view text, const TomlLimits& limits) {
  TextPlace place{1, 1};
  std::size_t line_begin = 0;
  for (std::size_t at = 0; at < text.size();) {
    const unsigned char byte = static_cast<unsigned char>(text[at]);
    if (byte == '\n') {
      ++place.line;
      place.column = 1;
      line_begin = ++at;
      continue;
    }
    const bool is_line_end = byte == '\r' && at + 1 < text.size() && text[at + 1] == '\n';
    if (byte == 0x7F || (byte < 0x20 && byte != '\t' && !is_line_end)) {
      return Finding{.place = place,
                     .value = fmt::format("0x{:02X}", byte),
                     .limit = "printable text",
                     .message = fmt::format("the file holds a control byte (0x{:02X}); a design is plain text", byte),
                     .hint = "is this the right file? save it as plain text in UTF-8"};
    }
    const std::size_t n_bytes = character_bytes(text, at);
    if (n_bytes == 0) {
      return Finding{.place = place,
                     .value = fmt::format("0x{:02X}", byte),
                     .limit = "UTF-8",
                     .message = fmt::format("the byte 0x{:02X} here is not UTF-8 text", byte),
                     .hint = "save the file as plain text in UTF-8"};
    }
    if (at - line_begin >= limits.max_line_bytes) {
      return Finding{.place = place,
                     .value = "",
                     .limit = fmt::format("{} bytes", limits.max_line_bytes),
                     .message = fmt::format("the line is longer than {} bytes", limits.max_line_bytes),
                     .hint = "break the line; a list may run over several lines",
                     .code = IssueCode::out_of_range};
    }
    at += n_bytes;
    ++place.column;
  }
  return std::nullopt;
}

bool is_beyond_ascii(char c) { return static_cast<unsigned char>(c) >= 0x80U; }

/// Follows strings and comments only as far as needed to judge what lies outside them: brackets and dots that nest too
/// deep, and characters beyond ASCII, which no grammar of TOML lets stand there (the parser answers some of them with
/// undefined behaviour). A text that closes a string wrongly is left to the parser, which reports it.
class OutsideScan {
 public:
  OutsideScan(std::string_view text, int max_depth) : text_(text), max_depth_(max_depth) {}

  [[nodiscard]] std::optional<Finding> find_bad() {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text_.substr(0, 3) == byte_order_mark) at_ = 3;
    while (at_ < text_.size()) {
      const char c = text_[at_];
      if (c == '#') {
        skip_to_line_end();
        continue;
      }
      if (c == '"' || c == '\'') {
        skip_string(c);
        if (has_bad_escape_) return beyond_ascii();
        continue;
      }
      if (is_beyond_ascii(c)) return beyond_ascii();
      if (c == '[' || c == '{') ++n_open_;
      if ((c == ']' || c == '}') && n_open_ > 0) --n_open_;
      if (c == '.') ++n_dots_;
      if (c == '=' || c == ',' || c == '\n' || c == '[' || c == '{') n_dots_ = 0;
      if (n_open_ > max_depth_ || n_dots_ > max_depth_) return too_deep();
      ++at_;
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] TextPlace place() const {
    int line = 1;
    std::size_t line_begin = 0;
    for (std::size_t i = 0; i < at_; ++i) {
      if (text_[i] == '\n') {
        ++line;
        line_begin = i + 1;
      }
    }
    return {line, static_cast<int>(count_characters(text_.substr(line_begin, at_ - line_begin))) + 1};
  }

  [[nodiscard]] Finding too_deep() const {
    return {.place = place(),
            .value = "",
            .limit = fmt::format("{} levels", max_depth_),
            .message = fmt::format("tables or lists lie more than {} levels deep", max_depth_),
            .hint = "a design needs four levels at most",
            .code = IssueCode::out_of_range};
  }

  [[nodiscard]] Finding beyond_ascii() const {
    const std::string character(text_.substr(at_, character_bytes(text_, at_)));
    return {.place = place(),
            .value = character,
            .limit = "letters a-z, digits, signs",
            .message = fmt::format("the character {} may stand only inside quotes or after #", character),
            .hint = "word processors put curved quotes and special blanks: use plain ones",
            .code = IssueCode::syntax};
  }

  void skip_to_line_end() {
    while (at_ < text_.size() && text_[at_] != '\n') ++at_;
  }

  void skip_string(char quote) {
    const std::string triple(3, quote);
    const bool is_long = text_.substr(at_, 3) == triple;
    const bool has_escapes = quote == '"';
    at_ += is_long ? 3 : 1;
    while (at_ < text_.size()) {
      if (has_escapes && text_[at_] == '\\') {
        ++at_;
        has_bad_escape_ = at_ < text_.size() && is_beyond_ascii(text_[at_]);
        if (has_bad_escape_) return;
        ++at_;
      } else if (is_long && text_.substr(at_, 3) == triple) {
        at_ += 3;
        // Up to two quotes more belong to the string's own text.
        for (int i = 0; i < 2 && at_ < text_.size() && text_[at_] == quote; ++i) ++at_;
        return;
      } else if (!is_long && (text_[at_] == quote || text_[at_] == '\n')) {
        at_ += text_[at_] == quote ? 1 : 0;
        return;
      } else {
        ++at_;
      }
    }
  }

  std::string_view text_;
  int max_depth_;
  std::size_t at_ = 0;
  int n_open_ = 0;
  int n_dots_ = 0;
  bool has_bad_escape_ = false;
};

}  // namespace

std::optional<Issue> find_unreadable(std::string_view text, std::string_view file_name, const TomlLimits& limits) {
  if (text.size() > limits.max_bytes) {
    return issue_from_finding(
        {.place = {1, 1},
         .value = fmt::format("{} bytes", text.size()),
         .limit = fmt::format("{} bytes", limits.max_bytes),
         .message = fmt::format("the file has {} bytes; at most {} are read", text.size(), limits.max_bytes),
         .hint = "is this the right file?",
         .code = IssueCode::out_of_range},
        file_name);
  }
  if (std::optional<Finding> bad = find_bad_bytes(text, limits)) return issue_from_finding(std::move(*bad), file_name);
  if (std::optional<Finding> bad = OutsideScan(text, limits.max_depth).find_bad()) {
    return issue_from_finding(std::move(*bad), file_name);
  }
  return std::nullopt;
}

}  // namespace houseleek
