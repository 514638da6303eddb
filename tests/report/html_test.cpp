// Escaping in one place: whatever a person wrote, the markup stays well formed and says it letter by letter.
#include "report/html.hpp"

#include <gtest/gtest.h>

#include "base/contract.hpp"

namespace houseleek::report {
namespace {

TEST(HtmlText, MarkupBecomesText) {
  EXPECT_EQ(html_from("<script>alert('1' & \"2\")</script>").text(),
            "&lt;script&gt;alert(&#39;1&#39; &amp; &quot;2&quot;)&lt;/script&gt;");
  EXPECT_EQ(html_from("&amp;").text(), "&amp;amp;");
}

TEST(HtmlText, OtherScriptsAndPicturesStay) {
  const std::string text = "سقف 屋根 \U0001F33F é";
  EXPECT_EQ(html_from(text).text(), text);
}

TEST(HtmlText, WhatXmlForbidsIsReplaced) {
  EXPECT_EQ(html_from(std::string_view("a\0b", 3)).text(), "a\uFFFDb");
  EXPECT_EQ(html_from("a\x1B[31m").text(), "a\uFFFD[31m");
  EXPECT_EQ(html_from("x\xFFy\xC3").text(), "x\uFFFDy\uFFFD");
  EXPECT_EQ(html_from("\xC2\x85").text(), "\uFFFD");
  EXPECT_EQ(html_from("\xEF\xBF\xBE").text(), "\uFFFD");
  EXPECT_EQ(html_from("\xED\xA0\x80").text(), "\uFFFD\uFFFD\uFFFD") << "half a surrogate pair";
  EXPECT_EQ(html_from("a\tb\nc").text(), "a\tb\nc");
}

TEST(HtmlElement, AttributesAreEscapedToo) {
  EXPECT_EQ(element("p", {{"title", "\"><script>"}}, html_from("x")).text(),
            "<p title=\"&quot;&gt;&lt;script&gt;\">x</p>");
}

TEST(HtmlElement, ElementsWithoutContentCloseThemselves) {
  EXPECT_EQ(element("br").text(), "<br/>");
  EXPECT_EQ(element("td").text(), "<td></td>");
  EXPECT_THROW((void)element("br", {}, html_from("x")), ContractViolation);
}

TEST(HtmlName, StandsApartSoThatItTurnsNothingRound) {
  EXPECT_EQ(name_from("\u202Eegassap").text(), "<bdi>\u202Eegassap</bdi>");
}

TEST(HtmlStyle, HoldsNoMarkup) {
  EXPECT_THROW((void)style_element("p{}</style><script>"), ContractViolation);
  EXPECT_EQ(style_element("p>b{}").text(), "<style>p>b{}</style>");
}

}  // namespace
}  // namespace houseleek::report
