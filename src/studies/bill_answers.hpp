// Bills of the logbook against the weather of their days.
#pragma once
#include <cstdint>
#include <vector>

#include "design/parse.hpp"
#include "logbook/event.hpp"
#include "logbook/reading.hpp"
#include "report/logbook_answer.hpp"

namespace houseleek::studies {

/// One answer for every item with an energy on its bills. Weather: a logger whose name holds outdoor, outside or "air",
/// where it covers four fifths of the days; else the design's normals, and the answer says so. Changes: events `noted`
/// whose item is "use" or "tariff", alone or followed by "of" and the bill's item.
[[nodiscard]] std::vector<report::BillsAnswer> answer_bills(const std::vector<logbook::EventRecord>& records,
                                                            const std::vector<logbook::LoggerColumn>& loggers,
                                                            const design::Design& design);

}  // namespace houseleek::studies
