// What the commands of trials read before they answer.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "exit_code.hpp"
#include "studies/trial_readings.hpp"
#include "studies/weather.hpp"

namespace houseleek::cli {

/// A design with one of its trials.
struct OpenTrial {
  studies::NamedText file;
  design::RawDesign raw;
  design::ValidDesign design;
  std::size_t trial = 0;
};
[[nodiscard]] Result<OpenTrial> open_trial(const studies::NamedText& file, const catalogue::Catalogue& catalogue,
                                           const std::string& name);

/// True if the page would be written over something it is made from; then says so on stderr.
[[nodiscard]] bool is_refused_page(const std::string& page_path, const std::string& input_path);

}  // namespace houseleek::cli
