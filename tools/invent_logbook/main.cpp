// Invents two years of logbook, readings and bills for the terrace house, the same bytes on every run.
//
// Everything is made up. Temperatures, storms, watering and heat come out of this program's own simulation of the house
// with figures of its own behind the assumptions (truth.txt lists them), plus stated noise; lives of ties and covers come
// from a hidden law; the rest is a story told with seeded lots. Nothing was tuned to what the program then answers.
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "base/issue_text.hpp"
#include "catalogue/catalogue.hpp"
#include "readings.hpp"
#include "studies/one_at_a_time_vary.hpp"

namespace houseleek::invent {
namespace {

std::string read_text(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

void write_text(const std::filesystem::path& path, const std::string& text) {
  std::ofstream file(path, std::ios::binary);
  file << text;
  file.close();
  if (!file) throw std::runtime_error("cannot write " + path.string());
}

template <class T>
T value_or_throw(Result<T> result) {
  if (!result) throw std::runtime_error(text_from_issues(result.error(), ""));
  return std::move(result).value();
}

std::string truth_text(const std::vector<studies::PlacedFigure>& hidden, const TrialTruth& trial, const Story& story) {
  std::string text = "INVENTED. What stands behind the invented logbook, hidden from the program that reads it.\n\n";
  text += fmt::format("seed {}\n\nfigures in place of the design's assumptions, drawn between their ends:\n", seed);
  for (const studies::PlacedFigure& figure : hidden) text += fmt::format("  {} = {:.6g}\n", figure.path, figure.value);
  text += fmt::format(
      "\nlives, Weibull: ties shape {}, half last {} years; cover sheets shape {}, half last {} years; a storm ages a "
      "tie by "
      "{} years and a cover by {}\n",
      tie_law.shape, tie_law.median_years, cover_law.shape, cover_law.median_years, tie_law.years_a_storm,
      cover_law.years_a_storm);
  text += fmt::format(
      "\nnoise, standard deviations: a reading by hand {} K, a place {} K, a logger's stamp {} K, the scale {} kg, "
      "module to "
      "module {} of its weight\n",
      hand_noise_k, place_offset_k, logger_noise_k, scale_noise_kg, module_mass_frac);
  text += fmt::format("\ntrial of {} days, at half past three: {} less {}: {:.3f} K\n", trial.n_days, trial.side,
                      trial.against, trial.max_difference_k);
  text += fmt::format("\nstorms on the {} windiest days; gas buys {} of the heat that would keep all rooms warm\n",
                      story.storms.size(), heated_frac);
  return text;
}

void make(const std::filesystem::path& source, const std::filesystem::path& out) {
  std::vector<catalogue::CatalogueFile> files;
  for (const std::string_view name : catalogue::catalogue_file_names) {
    files.push_back({std::string(name), read_text(source / "catalogue" / name)});
  }
  const catalogue::Catalogue catalogue = value_or_throw(catalogue::read_catalogue(files));
  const std::string toml = read_text(source / "examples" / "01-terrace-house" / "roof.toml");
  const design::RawDesign raw = value_or_throw(design::parse_design(toml, "roof.toml"));
  const design::ValidDesign design = value_or_throw(design::validate_design(raw, catalogue));
  const std::vector<studies::PlacedFigure> hidden = hidden_figures(design);
  const design::ValidDesign truth = value_or_throw(studies::read_varied(raw, design, catalogue, hidden));

  constexpr int first_year = 2022;
  std::vector<TrueYear> years;
  for (int year = first_year; year <= 2026; ++year) {
    std::fprintf(stderr, "simulating %d\n", year);
    years.push_back(simulate_year(truth, year, year - first_year + 1));
  }
  const Story story = begin_story(truth, years);
  EventTable table;
  add_bills(story, table);
  add_making(story, table);
  add_storms(story, table);
  add_upkeep(story, table);
  add_watering(story, table);
  add_weighings(story, table);
  add_nursery(story, table);
  const TrialTruth trial = add_hand_readings(story, table);
  std::filesystem::create_directories(out);
  write_text(out / "events.csv", table.csv());
  write_text(out / "outdoor.csv", outdoor_csv(story));
  write_text(out / "roof.csv", roof_csv(story));
  write_text(out / "truth.txt", truth_text(hidden, trial, story));
  std::printf("%zu invented events and two loggers' files in %s\n", table.size(), out.c_str());
}

}  // namespace
}  // namespace houseleek::invent

int main(int argc, char** argv) {
  if (argc != 3) {
    std::fputs("usage: houseleek_invent_logbook SOURCE_FOLDER OUT_FOLDER\n", stderr);
    return 2;
  }
  try {
    houseleek::invent::make(argv[1], argv[2]);
  } catch (const std::exception& failure) {
    std::fprintf(stderr, "houseleek_invent_logbook: %s\n", failure.what());
    return 3;
  }
  return 0;
}
