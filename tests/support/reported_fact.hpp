// Facts that are reported whichever way they fall: what common practice says, what came out, and whether the two agree.
#pragma once
#include <string>

namespace houseleek::tests {

struct ReportedFact {
  std::string id;        // unique: FACT-01
  std::string setting;   // which roof, weather, time
  std::string commonly;  // what common practice or a paper says, with its source or "common practice, no source"
  std::string found;     // what the program gave, with figures
  bool agrees = false;
};

/// Prints the fact and adds it to a file of this process in $HOUSELEEK_VALIDATION_DIR (if that is set). Never fails on `agrees`.
void report_fact(const ReportedFact& fact);

}  // namespace houseleek::tests
