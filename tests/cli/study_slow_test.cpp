// The terrace house, studied through a whole year by the program itself: one screen, and no promise on it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <regex>

#include "base/utf8.hpp"
#include "cli/run_program.hpp"

namespace houseleek::tests {
namespace {

TEST(StudyOfTheTerraceHouse, AnswersFitOneScreenBelowTheCautions) {
  const ProgramRun run = run_program({"study", "examples/01-terrace-house/roof.toml"}, HOUSELEEK_SOURCE_DIR);
  ASSERT_EQ(run.exit_code, 0) << run.err;
  EXPECT_EQ(run.err, "") << "no progress where nobody looks";
  int n_lines = 0;
  for (std::size_t at = 0; at < run.out.size(); ++n_lines) {
    const std::size_t end = run.out.find('\n', at);
    ASSERT_NE(end, std::string::npos);
    EXPECT_LE(count_characters(std::string_view(run.out).substr(at, end - at)), 80U) << run.out;
    at = end + 1;
  }
  EXPECT_EQ(run.out.rfind("CAUTION:", 0), 0U);
  const std::size_t answers = run.out.find("\nTerrace house: ");
  ASSERT_NE(answers, std::string::npos) << run.out;
  const auto n_cautions = 1 + std::count(run.out.begin(), run.out.begin() + static_cast<std::ptrdiff_t>(answers), '\n');
  EXPECT_LE(n_cautions, 8) << run.out;
  EXPECT_LE(n_lines - n_cautions, 24) << run.out;
  for (const char* question : {"Rivals?", "0 Sound?", "1 Carry it?", "2 Made of?", "3 Cooler?", "Warmer?", "4 Fans?",
                               "5 Drain?", "6 Water?", "7 Live?", "8 Cost?", "9 Next?", "10 Buy?"}) {
    EXPECT_NE(run.out.find(question), std::string::npos) << question;
  }
  const std::regex promise(R"(\b(safe|safely|ok|okay|pass|passes|passed)\b)", std::regex::icase);
  EXPECT_FALSE(std::regex_search(run.out, promise)) << run.out;
}

TEST(StudyOfTheTerraceHouse, ItsReportIsTheAnswerOfTheSameRun) {
  const TemporaryFolder folder;
  const std::string page = folder.path() + "/report.html";
  const ProgramRun run =
      run_program({"study", "examples/01-terrace-house/roof.toml", "--json", "--report", page, "--years", "1"},
                  HOUSELEEK_SOURCE_DIR);
  ASSERT_EQ(run.exit_code, 0) << run.err;
  EXPECT_EQ(run.err, "The report: " + page + "\n");
  EXPECT_FALSE(std::filesystem::exists(page + ".part"));
  EXPECT_LT(std::filesystem::file_size(page), 2'000'000U) << "small enough to be sent by mail";
  const std::string answer = folder.write("answer.json", run.out);
  const std::string command = std::string("/usr/bin/python3 ") + HOUSELEEK_SOURCE_DIR +
                              "/tests/report/check_page.py '" + page + "' '" + answer + "'";
  EXPECT_EQ(std::system(command.c_str()), 0) << "what is wrong stands above";
}

}  // namespace
}  // namespace houseleek::tests
