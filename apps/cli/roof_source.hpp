// What commands of the day read: the design with its own figures, its weather file, its logbook.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"
#include "logbook/event.hpp"
#include "logbook/reading.hpp"
#include "studies/weather.hpp"

namespace houseleek::cli {

/// A description or a project, as it is asked about.
struct RoofSource {
  studies::NamedText file;  // the design's text, and how to name it
  catalogue::Catalogue catalogue;
  design::ValidDesign design;  // with what was weighed and wore out in place of assumptions
  std::vector<logbook::EventRecord> records;
  std::vector<logbook::LoggerColumn> loggers;
  std::optional<studies::NamedText> weather_file;
  bool has_logbook = false;
  std::string input_hash;
};

/// What stands in the way: issues, and the text they have their places in.
struct RoofRefusal {
  Issues issues;
  std::string text;
};

/// `on`: a day of a project's logbook; empty: today.
/// Errors: the refusal's issues; WorldFailed, store::StoreError.
[[nodiscard]] std::optional<RoofSource> read_roof(const std::string& path, const std::string& on, RoofRefusal& refusal);

}  // namespace houseleek::cli
