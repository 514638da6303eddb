// Lines of a page: never wider than it, nothing lost.
#include "report/paragraph.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "base/utf8.hpp"

namespace houseleek::report {
namespace {

TEST(Paragraph, BreaksAtBlanksAndIndents) {
  EXPECT_EQ(paragraph("label", 8, "short"), "label   short\n");
  const std::string text = paragraph("label", 8, std::string(40, 'a') + " " + std::string(40, 'b'));
  EXPECT_EQ(text, "label   " + std::string(40, 'a') + "\n        " + std::string(40, 'b') + "\n");
}

TEST(Paragraph, FillsALineToItsLastCharacter) {
  EXPECT_EQ(count_lines(paragraph("", 0, std::string(39, 'a') + " " + std::string(40, 'b'))), 1U);
  EXPECT_EQ(count_lines(paragraph("", 0, std::string(40, 'a') + " " + std::string(40, 'b'))), 2U);
}

TEST(Paragraph, CutsAWordLongerThanALine) {
  const std::string text = paragraph("", 10, std::string(150, 'x'));
  EXPECT_EQ(count_lines(text), 3U);
  EXPECT_EQ(std::count(text.begin(), text.end(), 'x'), 150);
}

TEST(Paragraph, CountsCharactersNotBytes) {
  std::string word;
  for (int i = 0; i < 80; ++i) word += "\xC3\xBC";  // u with two dots
  EXPECT_EQ(count_lines(paragraph("", 0, word)), 1U);
  const std::string cut = paragraph("", 0, word + "\xC3\xBC");
  EXPECT_EQ(count_lines(cut), 2U);
  EXPECT_EQ(count_characters(cut), 83U);  // 81 and two line ends
}

TEST(Paragraph, ControlBytesAndRunsOfBlanksAreOneBlank) {
  EXPECT_EQ(paragraph("", 0, "a\x1b[31m  b\tc\n\nd"), "a [31m b c d\n");
}

TEST(Paragraph, NothingGivesTheLabelAlone) { EXPECT_EQ(paragraph("label", 8, ""), "label   \n"); }

TEST(Paragraph, ALabelWiderThanItsColumnIsOurMistake) {
  EXPECT_THROW((void)paragraph("a label", 3, "text"), ContractViolation);
}

}  // namespace
}  // namespace houseleek::report
