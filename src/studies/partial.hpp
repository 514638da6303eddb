// What can be said of a design without running a year: for a study that was interrupted.
#pragma once
#include <string>

#include "catalogue/catalogue.hpp"
#include "design/parse.hpp"

namespace houseleek::studies {

/// Cautions, weights, load and outlay, marked as a part of an answer.
[[nodiscard]] std::string text_without_runs(const design::ValidDesign& design, const catalogue::Catalogue& catalogue);

}  // namespace houseleek::studies
