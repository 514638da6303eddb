// Text laid into lines of a fixed width, counted in characters.
#include "report/paragraph.hpp"

#include <algorithm>
#include <vector>

#include "base/contract.hpp"
#include "base/utf8.hpp"

namespace houseleek::report {
namespace {

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (static_cast<unsigned char>(c) <= 0x20U || c == 0x7F) {
      if (!words.back().empty()) words.emplace_back();
    } else {
      words.back() += c;
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

}  // namespace

std::string paragraph(std::string_view label, std::size_t indent, std::string_view text) {
  expects(indent < page_width && count_characters(label) <= std::max<std::size_t>(indent, 1),
          "a label within the indent");
  const std::size_t room = page_width - indent;
  std::string page(label);
  page.append(indent - std::min(indent, count_characters(label)), ' ');
  std::size_t used = 0;
  const auto new_line = [&] {
    page += '\n';
    page.append(indent, ' ');
    used = 0;
  };
  const std::vector<std::string> words = words_of(text);
  for (std::string_view word : words) {
    std::size_t length = count_characters(word);
    if (used > 0 && used + 1 + length > room) new_line();
    while (length > room) {
      const std::size_t cut = offset_of_character(word, room);
      page += word.substr(0, cut);
      word = word.substr(cut);
      length -= room;
      new_line();
    }
    if (used > 0) {
      page += ' ';
      ++used;
    }
    page += word;
    used += length;
  }
  return page + '\n';
}

std::size_t count_lines(std::string_view text) {
  return static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
}

}  // namespace houseleek::report
