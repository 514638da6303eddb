// Figures in words: few digits, no exponent, the range behind them.
#include "report/words.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"
#include "report/json_parts.hpp"

namespace houseleek::report {
namespace {

TEST(ShortNumber, AboutThreeDigits) {
  EXPECT_EQ(short_number(0.0), "0");
  EXPECT_EQ(short_number(0.4239), "0.42");
  EXPECT_EQ(short_number(9.994), "9.99");
  EXPECT_EQ(short_number(9.996), "10.0");
  EXPECT_EQ(short_number(34.06), "34.1");
  EXPECT_EQ(short_number(99.96), "100");
  EXPECT_EQ(short_number(5210.4), "5210");
  EXPECT_EQ(short_number(12345678.0), "12345678");
  EXPECT_EQ(short_number(-3.456), "-3.46");
  EXPECT_EQ(short_number(-0.001), "0");
}

TEST(NumberInPrint, HasATrueMinus) {
  EXPECT_EQ(number_in_print(-3.456), "\u22123.46");
  EXPECT_EQ(number_in_print(-0.001), "0");
  EXPECT_EQ(number_in_print(42.0), "42.0");
}

TEST(ShortFigure, WithItsRange) {
  EXPECT_EQ(short_figure(results::figure_with_range(1.0, 0.9, 1.117, "x")), "1.00 (0.90 to 1.12)");
  EXPECT_EQ(short_figure(results::figure_without_range(512.0, "x")), "512");
  EXPECT_EQ(short_figure(results::figure_missing("x")), "not known");
}

TEST(ShortName, IsCutWithDots) {
  EXPECT_EQ(short_name("thin stonecrop", 14), "thin stonecrop");
  EXPECT_EQ(short_name("thin stonecrop", 10), "thin st...");
}

TEST(Joined, WithAnAndAtTheEnd) {
  EXPECT_EQ(joined({}), "");
  EXPECT_EQ(joined({"a"}), "a");
  EXPECT_EQ(joined({"a", "b"}), "a and b");
  EXPECT_EQ(joined({"a", "b", "c"}), "a, b and c");
}

TEST(FigureJson, ThreeForms) {
  EXPECT_EQ(json_from(results::figure_with_range(2.0, 1.0, 3.0, "ends")).dump(),
            R"({"value":2.0,"low":1.0,"high":3.0,"from":"ends"})");
  EXPECT_EQ(json_from(results::figure_without_range(2.0, "one year")).dump(),
            R"({"value":2.0,"no_range_because":"one year"})");
  EXPECT_EQ(json_from(results::figure_missing("no price")).dump(), R"({"value":null,"why":"no price"})");
}

TEST(FigureJson, AReasonIsNeverMissing) {
  EXPECT_THROW((void)json_from(results::Figure{}), ContractViolation);
  EXPECT_THROW((void)json_from(results::Figure{1.0, {}, ""}), ContractViolation);
  EXPECT_THROW((void)results::figure_with_range(2.0, 3.0, 4.0, "x"), ContractViolation);
}

TEST(DocumentText, NumbersThatAreNotFiniteAreOurMistake) {
  EXPECT_THROW((void)text_from(Json{{"a", std::nan("")}}), ContractViolation);
  EXPECT_THROW((void)text_from(Json{{"a", {{"b", 1.0 / 0.0}}}}), ContractViolation);
  EXPECT_EQ(text_from(Json{{"a", 1.5}}), "{\n  \"a\": 1.5\n}\n");
}

TEST(DocumentText, BytesThatAreNoTextDoNotStopTheAnswer) {
  EXPECT_EQ(text_from(Json{{"a", "x\xFFy"}}), "{\n  \"a\": \"x\xEF\xBF\xBDy\"\n}\n");
}

}  // namespace
}  // namespace houseleek::report
