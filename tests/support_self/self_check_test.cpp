// Proves that a reference test can fail: answers wrong by 1 % go red, and so do answers that are no number.
#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <limits>
#include <string>

#include "support/reference_check.hpp"

namespace houseleek::tests {
namespace {

constexpr const char* folder_variable = "HOUSELEEK_VALIDATION_DIR";

// Failures made on purpose must not reach docs/validation.md: this points the rows elsewhere, then back.
class ScopedFolder {
 public:
  explicit ScopedFolder(const std::string& folder) {
    const char* before = std::getenv(folder_variable);
    if (before != nullptr) before_ = before;
    setenv(folder_variable, folder.c_str(), 1);
  }
  ~ScopedFolder() {
    if (before_.empty()) {
      unsetenv(folder_variable);
    } else {
      setenv(folder_variable, before_.c_str(), 1);
    }
  }
  ScopedFolder(const ScopedFolder&) = delete;
  ScopedFolder& operator=(const ScopedFolder&) = delete;

 private:
  std::string before_;
};

ReferenceCheck some_check(double expected, double got) {
  return {.id = "SELF-00",
          .what = "an answer handed to the comparison",
          .source = "none: this checks the comparison itself",
          .expected = expected,
          .got = got,
          .tolerance = 0.005 * std::abs(expected),
          .reason = "half of the error that must be seen",
          .function = "tests::compare"};
}

TEST(SelfCheck, ExactAnswerIsGreen) {
  EXPECT_TRUE(compare(some_check(50.11162, 50.11162)).is_within);
  EXPECT_TRUE(compare(some_check(-3.5, -3.5)).is_within);
}

TEST(SelfCheck, AnswerWrongByOnePercentIsRed) {
  for (const double expected : {50.11162, -50.11162, 1e-9, 2.45e6}) {
    for (const double factor : {1.01, 0.99}) {
      const Comparison comparison = compare(some_check(expected, factor * expected));
      EXPECT_FALSE(comparison.is_within) << expected << " times " << factor;
      EXPECT_TRUE(comparison.would_see_one_percent);
    }
  }
}

TEST(SelfCheck, WrongSignIsRed) { EXPECT_FALSE(compare(some_check(5.0, -5.0)).is_within); }

TEST(SelfCheck, ExpectedZeroIsJudgedByItsScale) {
  ReferenceCheck check = some_check(0.0, 0.0);
  check.scale = 300.0;
  check.tolerance = 1.0;
  EXPECT_TRUE(compare(check).is_within);
  EXPECT_TRUE(compare(check).would_see_one_percent);
  for (const double sign : {1.0, -1.0}) {
    check.got = sign * 0.01 * check.scale;
    EXPECT_FALSE(compare(check).is_within);
  }
}

TEST(SelfCheck, WideToleranceIsCalledBlindToOnePercent) {
  ReferenceCheck check = some_check(100.0, 100.0);
  check.tolerance = 1.0;
  EXPECT_FALSE(compare(check).would_see_one_percent);
  check.tolerance = 0.99;
  EXPECT_TRUE(compare(check).would_see_one_percent);
  ReferenceCheck zero_without_scale = some_check(0.0, 0.0);
  EXPECT_FALSE(compare(zero_without_scale).would_see_one_percent);
}

TEST(SelfCheck, NoNumberIsRed) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const double infinity = std::numeric_limits<double>::infinity();
  EXPECT_FALSE(compare(some_check(1.0, nan)).is_within);
  EXPECT_FALSE(compare(some_check(1.0, infinity)).is_within);
  EXPECT_FALSE(compare(some_check(nan, 1.0)).is_within);
  EXPECT_FALSE(compare(some_check(nan, nan)).is_within);
  EXPECT_FALSE(compare(some_check(infinity, infinity)).is_within);
  ReferenceCheck check = some_check(1.0, 1.0);
  check.tolerance = nan;
  EXPECT_FALSE(compare(check).is_within);
  check.tolerance = infinity;
  EXPECT_FALSE(compare(check).is_within);
  check.tolerance = -1.0;
  EXPECT_FALSE(compare(check).is_within);
}

TEST(SelfCheck, RedReachesTheTestRunner) {
  const ScopedFolder nowhere("");
  EXPECT_NONFATAL_FAILURE(check_reference(some_check(100.0, 101.0)), "expected   100");
  EXPECT_NONFATAL_FAILURE(check_reference(some_check(100.0, std::nan(""))), "got        nan");
  ReferenceCheck without_reason = some_check(100.0, 100.0);
  without_reason.reason.clear();
  EXPECT_NONFATAL_FAILURE(check_reference(without_reason), "has no reason");
}

TEST(SelfCheck, RowsAreKeptAndAFolderThatIsMissingIsRed) {
  const std::filesystem::path folder =
      std::filesystem::temp_directory_path() / ("houseleek-self-" + std::to_string(getpid()));
  {
    const ScopedFolder missing(folder.string());
    EXPECT_NONFATAL_FAILURE(check_reference(some_check(100.0, 100.0)), "cannot write");
  }
  std::filesystem::create_directory(folder);
  {
    const ScopedFolder here(folder.string());
    check_reference(some_check(100.0, 100.25));
    check_reference(some_check(2.0, 2.0));
  }
  std::ifstream rows(folder / ("rows-" + std::to_string(getpid()) + ".tsv"));
  std::string first;
  std::string second;
  ASSERT_TRUE(std::getline(rows, first));
  ASSERT_TRUE(std::getline(rows, second));
  EXPECT_NE(first.find("SELF-00\tan answer handed to the comparison\t"), std::string::npos);
  EXPECT_NE(first.find("\t100\t100.25\t0.5\t"), std::string::npos);
  EXPECT_NE(first.find("\ttests/support_self/self_check_test.cpp:"), std::string::npos);
  EXPECT_NE(second.find("\t2\t2\t0.01\t"), std::string::npos);
  std::filesystem::remove_all(folder);
}

TEST(SelfCheck, TabsAndLineEndsCannotBreakARow) {
  ReferenceCheck check = some_check(1.0, 1.0);
  check.what = "two\nlines\tand a tab";
  const std::string row = validation_row(check, compare(check), "place");
  EXPECT_NE(row.find("\ttwo lines and a tab\t"), std::string::npos);
  EXPECT_EQ(row.find('\n'), std::string::npos);
}

}  // namespace
}  // namespace houseleek::tests
