// What is asked before anything runs: texts in; a design with its weather out, or every problem with its place.
#include "studies/open_design.hpp"

#include <fmt/format.h>

#include "base/issue_text.hpp"
#include "base/sha256.hpp"

namespace houseleek::studies {
namespace {

/// The node at a dotted path with indices (climate.normals.max_c[3]), or the last one on the way that is there.
const TomlNode* nearest_node(const TomlNode& root, std::string_view path) {
  const TomlNode* node = &root;
  while (!path.empty()) {
    const std::size_t end = std::min(path.find_first_of(".["), path.size());
    if (end > 0) {
      const TomlNode* member = find_member(*node, path.substr(0, end));
      if (member == nullptr) return node;
      node = member;
    }
    path = path.substr(end);
    if (path.starts_with('.')) path = path.substr(1);
    if (!path.starts_with('[')) continue;
    const std::size_t close = path.find(']');
    if (close == std::string_view::npos) return node;
    std::size_t index = 0;
    for (const char digit : path.substr(1, close - 1)) index = 10 * index + static_cast<std::size_t>(digit - '0');
    if (index >= node->items.size()) return node;
    node = &node->items[index];
    path = path.substr(close + 1);
  }
  return node;
}

Issues with_places(Issues issues, const NamedText& design_file) {
  const Result<design::RawDesign> raw = design::parse_design(design_file.text, design_file.name);
  expects(raw.has_value(), "a design that has been read before");
  for (Issue& issue : issues) {
    const TomlNode* node = nearest_node(raw.value().root, issue.path);
    issue.file = design_file.name;
    issue.line = node->begin.line;
    issue.column = node->begin.column;
  }
  return sorted_by_place(std::move(issues));
}

}  // namespace

Result<WeatherInUse> open_weather_in_use(const design::ValidDesign& design, const NamedText& design_file,
                                         const std::optional<NamedText>& weather_file) {
  Result<WeatherInUse> weather = find_weather(design, weather_file);
  if (weather || weather_file) return weather;
  return Unexpected{with_places(weather.error(), design_file)};
}

Result<climate::WeatherYear> open_weather(const design::ValidDesign& design, const NamedText& design_file,
                                          const std::optional<NamedText>& weather_file) {
  Result<WeatherInUse> weather = open_weather_in_use(design, design_file, weather_file);
  if (!weather) return Unexpected{weather.error()};
  return std::move(weather).value().year;
}

std::string input_hash(std::span<const catalogue::CatalogueFile> catalogue_files, const NamedText& design_file,
                       const std::optional<NamedText>& weather_file) {
  std::string all;
  // Each text with its length before it, so that no two lists of texts run into the same bytes.
  const auto add = [&all](std::string_view text) { all += fmt::format("{}:{}", text.size(), text); };
  for (const catalogue::CatalogueFile& file : catalogue_files) {
    add(file.name);
    add(file.text);
  }
  add(design_file.text);
  if (weather_file) add(weather_file->text);
  return "sha256:" + sha256_hex(all);
}

}  // namespace houseleek::studies
