// What a project's logbook adds to a study, as a section of its report.
#pragma once
#include "report/html.hpp"
#include "report/issue_json.hpp"

namespace houseleek::report {

/// Figures measured on the roof beside what they stand for, water in the modules, bills before and after.
/// Shape:    the study's document, with "logbook" null for a description alone: then nothing.
[[nodiscard]] Html logbook_section(const Json& document);

}  // namespace houseleek::report
