// Spoiled descriptions and weather files through the door.
#include "fuzz/spoiled_files.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <exception>
#include <vector>

#include "checks/cautions.hpp"
#include "climate/read_file.hpp"
#include "climate/write_csv.hpp"
#include "fuzz/spoil.hpp"
#include "plan/layout.hpp"
#include "report/study_text.hpp"
#include "studies/check.hpp"
#include "studies/study.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"
#include "support/example_house.hpp"

namespace houseleek::tests {
namespace {

std::vector<std::string> shipped_descriptions() {
  std::vector<std::string> texts = {terrace_house_text()};
  for (const char* name : {"everything", "falls-to-outlets", "file-and-normals", "hollow-pots", "least",
                           "own-materials", "two-way-slab"}) {
    texts.push_back(source_file_text(std::string("schema/valid/") + name + ".toml"));
  }
  return texts;
}

void expect_located(const Issues& issues, const std::string& text) {
  EXPECT_FALSE(issues.empty());
  const auto n_lines = 1 + std::count(text.begin(), text.end(), '\n');
  for (const Issue& issue : issues) {
    EXPECT_FALSE(issue.message.empty());
    EXPECT_LE(issue.line, n_lines) << issue.message;
    EXPECT_GE(issue.column, 0) << issue.message;
  }
}

void try_design(const std::string& text, const catalogue::Catalogue& catalogue, SpoiledCounts& counts) {
  const studies::CheckAnswer answer = studies::check_design(text, "roof.toml", catalogue);
  EXPECT_FALSE(answer.text.empty());
  EXPECT_FALSE(answer.document.dump().empty());  // throws where a string is no UTF-8
  const Result<design::ValidDesign> read = design::read_design(text, "roof.toml", catalogue);
  EXPECT_EQ(answer.is_valid, read.has_value());
  if (!read) {
    ++counts.n_refused;
    expect_located(read.error(), text);
    return;
  }
  ++counts.n_accepted;
  (void)plan::make_layout(read.value());
  (void)checks::find_cautions(read.value(), catalogue);
}

void try_weather(const std::string& text, SpoiledCounts& counts) {
  const climate::Place place{.latitude_deg = 38.2, .longitude_deg = 22.6, .elevation_m = 60.0, .utc_offset_h = 2.0};
  const Result<climate::WeatherFile> read = climate::read_weather_file(
      {.text = text, .file_name = "weather.csv", .place = place, .offsets = {}, .rules = {}, .nth_year = 0});
  if (!read) {
    ++counts.n_refused;
    expect_located(read.error(), text);
    return;
  }
  ++counts.n_accepted;
  const climate::WeatherYear& year = read.value().year;
  for (const double air_c : year.air_temperature_c) EXPECT_TRUE(air_c >= -60.0 && air_c <= 60.0) << air_c;
  for (const double rain_mm : year.rain_mm_per_10_min) EXPECT_TRUE(rain_mm >= 0.0 && rain_mm < 200.0) << rain_mm;
}

/// A day of everything that is worked out for a design.
void try_day(const std::string& text, const catalogue::Catalogue& catalogue, SpoiledCounts& counts) {
  const Result<design::ValidDesign> read = design::read_design(text, "roof.toml", catalogue);
  if (!read || read.value()->climate.file) return;
  const Result<climate::WeatherYear> weather = studies::make_weather(read.value(), std::nullopt);
  if (!weather) {
    ++counts.n_refused;
    return;
  }
  ++counts.n_accepted;
  studies::StudyOptions options;
  options.engine_version = "0.0.0";
  options.input_hash = "sha256:" + std::string(64, '0');
  options.run.first_hour = 24 * 180;
  options.run.n_hours = 24;
  options.run.spin_up_hours = 0;
  const report::StudyAnswer answer =
      studies::study(read.value(), catalogue, weather.value(), options, studies::run_in_turn, {});
  EXPECT_LT(answer.engine.heat_residual_frac, 1e-8);
  EXPECT_LT(answer.engine.water_residual_m, 1e-9);
  EXPECT_FALSE(report::text_of_questions(answer).empty());
}

/// Whatever is thrown fails the test with the seed by which it can be had again.
template <class F>
void with_seed(std::uint64_t seed, const F& f) {
  const ::testing::ScopedTrace trace(__FILE__, __LINE__, "seed " + std::to_string(seed));
  try {
    f();
  } catch (const std::exception& exception) {
    ADD_FAILURE() << exception.what();
  }
}

}  // namespace

SpoiledCounts try_spoiled_designs(std::uint64_t first_seed, int n) {
  const std::vector<std::string> texts = shipped_descriptions();
  const catalogue::Catalogue catalogue = shipped_catalogue();
  SpoiledCounts counts;
  for (std::uint64_t seed = first_seed; seed < first_seed + static_cast<std::uint64_t>(n); ++seed) {
    with_seed(seed, [&] { try_design(spoiled(texts[seed % texts.size()], seed), catalogue, counts); });
  }
  return counts;
}

SpoiledCounts try_days_of_spoiled_designs(std::uint64_t first_seed, int n) {
  const std::vector<std::string> texts = shipped_descriptions();
  const catalogue::Catalogue catalogue = shipped_catalogue();
  SpoiledCounts counts;
  for (std::uint64_t seed = first_seed; seed < first_seed + static_cast<std::uint64_t>(n); ++seed) {
    with_seed(seed, [&] { try_day(spoiled(texts[seed % texts.size()], seed), catalogue, counts); });
  }
  return counts;
}

SpoiledCounts try_spoiled_weather(std::uint64_t first_seed, int n) {
  const std::string whole = climate::write_year_csv(year_of(read_valid(terrace_house_text())));
  constexpr std::size_t head_size = 1200;  // faults of the heading and of the first rows are rare in a whole file
  SpoiledCounts counts;
  for (std::uint64_t seed = first_seed; seed < first_seed + static_cast<std::uint64_t>(n); ++seed) {
    const bool is_of_head = seed % 2 == 0;
    with_seed(seed, [&] {
      try_weather(
          is_of_head ? spoiled(whole.substr(0, head_size), seed) + whole.substr(head_size) : spoiled(whole, seed),
          counts);
    });
  }
  return counts;
}

}  // namespace houseleek::tests
