// The shipped terrace house with changes in its text, and a year of weather made from its normals.
#include "support/example_house.hpp"

#include <algorithm>
#include <stdexcept>
#include <utility>

#include "base/issue_text.hpp"
#include "climate/generate.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::tests {
namespace {

constexpr std::string_view patch_heading = "[[patch]]";

/// Where the patches begin and what follows them.
std::pair<std::size_t, std::size_t> patch_span(const std::string& text) {
  const std::size_t begin = text.find(patch_heading);
  const std::size_t end = text.find("\n[", text.rfind(patch_heading));
  if (begin == std::string::npos || end == std::string::npos) throw std::runtime_error("no patches in the text");
  return {begin, end + 1};
}

}  // namespace

std::string terrace_house_text() { return source_file_text("examples/01-terrace-house/roof.toml"); }

std::string with_text(std::string text, std::string_view from, std::string_view to) {
  std::size_t at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error("not in the text: " + std::string(from));
  for (; at != std::string::npos; at = text.find(from, at + to.size())) text.replace(at, from.size(), to);
  return text;
}

std::string with_patches(const std::string& text, std::string_view patches) {
  const auto [begin, end] = patch_span(text);
  return text.substr(0, begin) + std::string(patches) + "\n" + text.substr(end);
}

std::vector<std::string> patches_of(const std::string& text) {
  const auto [begin, end] = patch_span(text);
  std::vector<std::string> patches;
  std::size_t from = begin;
  while (from < end) {
    const std::size_t next = std::min(end, text.find(patch_heading, from + 1));
    patches.push_back(text.substr(from, next - from));
    from = next;
  }
  return patches;
}

design::ValidDesign read_valid(const std::string& text) {
  Result<design::ValidDesign> read = design::read_design(text, "roof.toml", shipped_catalogue());
  if (!read) throw std::runtime_error(text_from_issues(read.error(), text));
  return std::move(read).value();
}

climate::WeatherYear year_of(const design::ValidDesign& design) {
  const design::MonthlyNormals& from = design->climate.normals.value();
  climate::MonthlyNormals normals;
  normals.max_c = from.max_c;
  normals.min_c = from.min_c;
  normals.rain_mm = from.rain_mm;
  normals.rain_days = from.rain_days;
  normals.sunshine_h = from.sunshine_h;
  normals.global_mj_per_m2_d = from.global_mj_per_m2_d;
  normals.dew_point_c = from.dew_point_c;
  normals.wind_m_per_s = from.wind_m_per_s;
  if (from.relative_humidity_percent) {
    normals.relative_humidity_frac.emplace();
    for (std::size_t month = 0; month < 12; ++month) {
      (*normals.relative_humidity_frac)[month] = 0.01 * (*from.relative_humidity_percent)[month];
    }
  }
  const climate::Place place{.latitude_deg = design->site.latitude_deg,
                             .longitude_deg = design->site.longitude_deg,
                             .elevation_m = design->site.elevation_m,
                             .utc_offset_h = 2.0};
  Result<climate::WeatherYear> year = climate::generate_year(place, normals, design->climate.seed, 0);
  if (!year) throw std::runtime_error(text_from_issues(year.error(), ""));
  return std::move(year).value();
}

}  // namespace houseleek::tests
