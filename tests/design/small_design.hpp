// A small valid design that tests bend and break.
#pragma once
#include <string>
#include <string_view>

#include "base/issue_text.hpp"
#include "design/parse.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::tests {

inline const std::string& spelled_out_design_text() {
  static const std::string text = R"(format = 1
name = "shed"
[site]
latitude_deg = 38.0
longitude_deg = 23.7
elevation_m = 100
time_zone = "Europe/Athens"
[climate.normals]
max_c = [13, 14, 16, 20, 26, 31, 33, 33, 29, 24, 18, 15]
min_c = [6, 6, 8, 11, 15, 19, 22, 22, 19, 15, 11, 8]
rain_mm = [50, 45, 40, 25, 15, 5, 3, 4, 10, 50, 60, 70]
[roof]
outline = [[0, 0], [6, 0], [6, 4], [0, 4]]
[[roof.deck]]
material = "bitumen felt"
thickness_mm = 8
[[roof.deck]]
material = "reinforced concrete"
thickness_mm = 150
[[roof.outlet]]
name = "spout"
at = [5.8, 3.8]
[[roof.obstacle]]
name = "chimney"
outline = [[0.2, 3.2], [0.8, 3.2], [0.8, 3.8], [0.2, 3.8]]
[[room]]
name = "workshop"
outline = [[0, 0], [3, 0], [3, 4], [0, 4]]
[[room]]
name = "store"
outline = [[3, 0], [6, 0], [6, 4], [3, 4]]
[[partition]]
between = ["workshop", "store"]
area_m2 = 10
[[recipe]]
name = "thin"
length_mm = 1000
width_mm = 500
spacer = { height_mm = 20 }
[[recipe.layer]]
role = "medium"
material = "mineral roof medium"
thickness_mm = 60
[[recipe.layer]]
role = "core"
material = "expanded clay"
thickness_mm = 30
[[recipe.plant]]
name = "Sedum album"
cover_frac = 0.5
[[patch]]
recipe = "thin"
columns = 2
rows = 3
origin = [1.0, 0.5]
spacing_mm = 50
)";
  return text;
}

/// The text with one passage replaced; a passage that is not there stops the test program.
inline std::string with_change(std::string text, std::string_view from, std::string_view to) {
  const std::size_t at = text.find(from);
  expects(at != std::string::npos, "a passage that is in the design");
  text.replace(at, from.size(), to);
  return text;
}

inline std::string small_with(std::string_view from, std::string_view to) {
  return with_change(spelled_out_design_text(), from, to);
}

/// Issues as the terminal shows them, or "valid".
inline std::string shown(std::string_view text, std::string_view file_name = "roof.toml") {
  const Result<design::ValidDesign> read = design::read_design(text, file_name, shipped_catalogue());
  return read ? "valid" : text_from_issues(read.error(), text);
}

}  // namespace houseleek::tests
