// Markup that is well formed by construction, as HTML and as XML: the one place where text is escaped.
#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace houseleek::report {

/// A piece of a document. Only the functions below make one out of text.
class Html {
 public:
  Html() = default;
  [[nodiscard]] const std::string& text() const noexcept { return text_; }
  [[nodiscard]] bool is_empty() const noexcept { return text_.empty(); }
  Html& operator+=(const Html& more) {
    text_ += more.text_;
    return *this;
  }

 private:
  explicit Html(std::string text) : text_(std::move(text)) {}
  friend Html html_from(std::string_view text);
  friend Html element(std::string_view name, const std::vector<std::pair<std::string_view, std::string>>& attributes,
                      const Html& children);
  friend Html style_element(std::string_view css);
  std::string text_;
};

[[nodiscard]] inline Html operator+(Html a, const Html& b) { return a += b; }

using Attributes = std::vector<std::pair<std::string_view, std::string>>;

/// Any bytes as text: markup characters become references; bytes that are no UTF-8, and control characters that XML
/// forbids, become U+FFFD.
[[nodiscard]] Html html_from(std::string_view text);

/// <name attribute="...">children</name>; elements without content (br, meta) close themselves. Values are escaped.
[[nodiscard]] Html element(std::string_view name, const Attributes& attributes = {}, const Html& children = {});

/// Text in an element without attributes.
[[nodiscard]] Html element_of(std::string_view name, std::string_view text);

/// What a person wrote: set apart, so that its direction of writing moves nothing around it.
[[nodiscard]] Html name_from(std::string_view text);

/// Our own style sheet. Errors: ContractViolation where it holds markup.
[[nodiscard]] Html style_element(std::string_view css);

}  // namespace houseleek::report
