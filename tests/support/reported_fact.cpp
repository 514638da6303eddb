// Prints facts that are reported whichever way they fall, and keeps them for docs/validation.md.
#include "support/reported_fact.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>

namespace houseleek::tests {

void report_fact(const ReportedFact& fact) {
  std::string row;
  for (const std::string& cell :
       {fact.id, fact.setting, fact.commonly, fact.found, std::string(fact.agrees ? "yes" : "no")}) {
    ASSERT_FALSE(cell.empty()) << "a fact without all its texts: " << fact.id;
    ASSERT_EQ(cell.find_first_of("\t\r\n"), std::string::npos) << "a fact's text on several lines: " << fact.id;
    row += (row.empty() ? "" : "\t") + cell;
  }
  std::cout << fact.id << " (" << fact.setting << "): commonly " << fact.commonly << ". Found: " << fact.found
            << (fact.agrees ? " (agrees)" : " (does not agree)") << '\n';
  const char* folder = std::getenv("HOUSELEEK_VALIDATION_DIR");
  if (folder == nullptr || *folder == '\0') return;
  const std::filesystem::path path = std::filesystem::path(folder) / ("facts-" + std::to_string(getpid()) + ".tsv");
  std::ofstream facts(path, std::ios::app);
  facts << row << '\n';
  facts.flush();
  if (!facts) ADD_FAILURE() << "cannot write " << path;
}

}  // namespace houseleek::tests
