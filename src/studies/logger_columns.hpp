// The readings of a project as trials take them.
#pragma once
#include <string>
#include <vector>

#include "logbook/reading.hpp"
#include "store/readings.hpp"

namespace houseleek::studies {

/// Every thermometer's readings in order of time. Units: degC; seconds in the place's standard time. A zone whose
/// standard time changes from one year to the next is taken year by year.
/// Errors: StoreError.
[[nodiscard]] std::vector<logbook::LoggerColumn> logger_columns_of(const store::Project& project,
                                                                   const std::string& zone);

}  // namespace houseleek::studies
