// The report page of whole studies, judged by tests/report/check_page.py against the JSON document of the same answer.
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>

#include "base/contract.hpp"
#include "catalogue/catalogue.hpp"
#include "report/hand_pages.hpp"
#include "report/study_html.hpp"
#include "report/study_json.hpp"
#include "report/study_sections.hpp"
#include "studies/small_study.hpp"

namespace houseleek::studies {
namespace {

using report::Json;
using tests::edited;
using tests::small_design_text;

struct Page {
  Json document;
  std::string text;
};

report::StudyAnswer study_with_columns(const std::string& design_text) {
  StudyOptions options = tests::short_options();
  options.keeps_columns = true;
  return tests::study_of(design_text, options);
}

Page page_of(const report::StudyAnswer& answer) {
  Page page;
  page.document = report::json_from(answer);
  page.document["logbook"] = nullptr;
  page.text = report::page_of_study(page.document, *answer.columns, {.date = "1 April 2025"});
  return page;
}

/// A file that is gone at the end.
class TemporaryFile {
 public:
  TemporaryFile(const std::string& name, const std::string& text)
      : path_(std::filesystem::temp_directory_path() / fmt::format("houseleek-{}-{}", getpid(), name)) {
    std::ofstream(path_, std::ios::binary) << text;
  }
  ~TemporaryFile() { std::filesystem::remove(path_); }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  [[nodiscard]] std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

/// What check_page.py finds; empty where it ends with 0.
std::string problems_of(const Page& page, const std::string& kind = "whole") {
  const TemporaryFile html("page.html", page.text);
  const TemporaryFile json("answer.json", report::text_from(page.document));
  const std::string command = fmt::format("/usr/bin/python3 '{}/tests/report/check_page.py' '{}' '{}' {}",
                                          HOUSELEEK_SOURCE_DIR, html.path(), json.path(), kind);
  std::FILE* pipe = popen(command.c_str(), "r");
  if (pipe == nullptr) return "python3 did not start";
  std::string out;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) out += static_cast<char>(c);
  const int status = pclose(pipe);
  if (WIFEXITED(status) && WEXITSTATUS(status) == 0) return "";
  return out.empty() ? "check_page.py failed without a word" : out;
}

Page changed(Page page, const std::string& from, const std::string& to) {
  const std::size_t at = page.text.find(from);
  if (at == std::string::npos) throw std::runtime_error(from + " is not on the page");
  page.text.replace(at, from.size(), to);
  return page;
}

TEST(ReportPage, IsWellFormedAndEveryFigureIsTheDocuments) {
  EXPECT_EQ(problems_of(page_of(study_with_columns(small_design_text()))), "");
}

Page handed(const report::StudyAnswer& answer,
            std::string (*page_for)(const Json& document, const report::ReportHead& head)) {
  Page page;
  page.document = report::json_from(answer);
  page.document["logbook"] = nullptr;
  page.text = page_for(page.document, {.date = "1 April 2025"});
  return page;
}

TEST(HandedPages, AreWellFormedAskAndLeaveRoomForAnswers) {
  const report::StudyAnswer answer = tests::study_of(small_design_text());
  for (const auto page_for : {report::page_for_engineer, report::page_for_roofer}) {
    const Page page = handed(answer, page_for);
    EXPECT_EQ(problems_of(page, "part"), "");
    EXPECT_NE(page.text.find("date and signature"), std::string::npos);
    EXPECT_NE(page.text.find("class=\"blank\""), std::string::npos);
  }
  EXPECT_NE(handed(answer, report::page_for_engineer).text.find("no structural calculation"), std::string::npos);
  EXPECT_NE(handed(answer, report::page_for_roofer).text.find("What voids a warranty"), std::string::npos);
}

TEST(HandedPages, GiveNoVerdictWithoutACompleteFigure) {
  const std::string with_figure = small_design_text();
  const std::string without_who = edited(with_figure, {{"who = \"A. Engineer\"\n", ""}});
  const auto engineer = [](const std::string& text) {
    return handed(tests::study_of(text), report::page_for_engineer).text;
  };
  EXPECT_NE(engineer(with_figure).find("within the"), std::string::npos);
  EXPECT_EQ(engineer(without_who).find("within the"), std::string::npos);
}

TEST(ReportPage, TheJudgeSeesWhatIsWrong) {
  const Page page = page_of(study_with_columns(small_design_text()));
  const std::string value = page.document.at("money").at("outlay").at("value").dump();
  const auto wrong = [&](const std::string& from, const std::string& to) {
    return problems_of(changed(page, from, to));
  };
  EXPECT_NE(wrong("value=\"" + value + "\"", "value=\"1.25\"").find("/money/outlay/value"), std::string::npos);
  EXPECT_NE(wrong("<h1>", "<h1 id=\"answers\">").find("id answers is there twice"), std::string::npos);
  EXPECT_NE(wrong("href=\"#rivals\"", "href=\"https://x.example\"").find("https://x.example"), std::string::npos);
  EXPECT_NE(wrong("</h1>", "</h2>").find("not well formed"), std::string::npos);
  EXPECT_NE(wrong("<h1>", "<script></script><h1>").find("<script> is there"), std::string::npos);
  EXPECT_NE(wrong("<details class=\"numbers\">", "<details><table></table>").find("no table behind it"),
            std::string::npos);
}

TEST(ReportPage, HostileNamesStayText) {
  std::string text = small_design_text();
  const std::string hostile = "</title><script>alert(1)</script>\\\"'&lt; \U0001F33F \u202Eegassap \u05D2\u05D2";
  text = edited(text, {{"\"Small house\"", "\"" + hostile + "\""},
                       {"name = \"bedroom\"", "name = \"<img src=x onerror=alert(1)> \u0633\u0642\u0641\""},
                       {"\"A. Engineer\"", "\"<b>A</b> & \\\"B\\\" ]]>\""}});
  for (const char* line : {"name = \"thin stonecrop\"", "recipe = \"thin stonecrop\""}) {
    const std::string with_quotes = std::string(line).substr(0, std::string(line).find('"'));
    text = edited(text, {{line, with_quotes + "\"--> <!-- <svg onload=x> '\\\" \U0001F335\""}});
  }
  const Page page = page_of(study_with_columns(text));
  EXPECT_EQ(problems_of(page), "");
  EXPECT_NE(page.text.find("&lt;img src=x onerror=alert(1)&gt;"), std::string::npos);
  EXPECT_EQ(page.text.find("<img"), std::string::npos);
  EXPECT_EQ(page.text.find("<script"), std::string::npos);
}

TEST(ReportPage, WithNothingLaidAndNoFigureFromAnEngineer) {
  const std::string text = edited(small_design_text(), {{R"([[patch]]
recipe = "thin stonecrop"
columns = 2
rows = 2
origin = [0.5, 0.4]
spacing_mm = 50
)",
                                                         ""},
                                                        {"who = \"A. Engineer\"\n", ""}});
  const Page page = page_of(study_with_columns(text));
  EXPECT_EQ(problems_of(page), "");
  EXPECT_NE(page.text.find("no modules are laid"), std::string::npos);
}

TEST(ReportPage, EveryPlaceOfACautionHasAQuestion) {
  for (const std::string_view place : catalogue::caution_places) {
    EXPECT_GE(report::question_of_place(place), 0) << place;
  }
  EXPECT_THROW((void)report::question_of_place("nowhere"), ContractViolation);
}

TEST(ReportPage, WhatIsNotComputedYetSaysSoUnderItsQuestion) {
  const Page page = page_of(study_with_columns(small_design_text()));
  for (const char* words : {"Shopping, cutting, steps: not computed yet."}) {
    EXPECT_NE(page.text.find(words), std::string::npos) << words;
  }
  for (const report::Question& question : report::questions) {
    EXPECT_NE(page.text.find(fmt::format("id=\"question-{}\"", question.number)), std::string::npos);
  }
}

TEST(ReportPage, WhatLaterWorkFillsInIsShown) {
  const report::StudyAnswer answer = study_with_columns(small_design_text());
  Page page;
  page.document = report::json_from(answer);
  page.document["logbook"] = nullptr;
  page.document["worksheet"] = {{"cases",
                                 {{{"rain_mm_per_h", 60.0},
                                   {"max_depth_mm", {{"value", 12.5}, {"low", 9.0}, {"high", 20.0}, {"from", "x"}}},
                                   {"statement", "a sentence"}}}}};
  const Json effect = {{"on", page.document["assumed_ranked"]["on"]},
                       {"low_gives", nullptr},
                       {"likely_gives", -20.0},
                       {"high_gives", -31.5},
                       {"from", "one at a time"}};
  page.document["assumed"][0]["effects"] = {effect};
  page.document["assumed_ranked"]["most"] = {
      {{"paths", {"a"}}, {"name", "wind"}, {"low_gives", nullptr}, {"likely_gives", -20.0}, {"high_gives", -31.5}}};
  page.document["house"]["planted"]["operative_max_c"] = {
      {"value", 31.0}, {"low", 30.0}, {"high", 33.0}, {"from", "twenty years of weather"}};
  page.text = report::page_of_study(page.document, *answer.columns, {.date = "today"});
  EXPECT_EQ(problems_of(page), "");
  for (const char* pointer :
       {"/worksheet/cases/0/rain_mm_per_h", "/worksheet/cases/0/max_depth_mm/low", "/assumed/0/effects/0/high_gives",
        "/assumed_ranked/most/0/likely_gives", "/house/planted/operative_max_c/high"}) {
    EXPECT_NE(page.text.find(fmt::format("data-at=\"{}\"", pointer)), std::string::npos) << pointer;
  }
  EXPECT_NE(page.text.find("twenty years of weather"), std::string::npos);
  EXPECT_NE(page.text.find("a sentence"), std::string::npos);
}

TEST(ReportPage, DrawsLoadWindAndWaterBySquare) {
  const Page page = page_of(study_with_columns(tests::checked_design_text()));
  EXPECT_EQ(problems_of(page), "");
  for (const char* id : {"map-load", "map-wind", "map-water", "wind", "fire"}) {
    EXPECT_NE(page.text.find(fmt::format("id=\"{}\"", id)), std::string::npos) << id;
  }
  for (const char* pointer :
       {"/load/utilisation_span_max_frac/value", "/wind/patches/0/ballast_kg_per_m2/high",
        "/drainage/cases/1/max_depth_mm/low", "/fire/recipes/0/fuel_mj_per_m2/value", "/load/next/0/places/0/left_m"}) {
    EXPECT_NE(page.text.find(fmt::format("data-at=\"{}\"", pointer)), std::string::npos) << pointer;
  }
}

TEST(ReportPage, WithoutTheEngineersWholeFigureThereIsNoVerdictOnIt) {
  // What a roofer wrote down for the membrane is another matter, and left out here.
  const Page page = page_of(
      study_with_columns(edited(tests::checked_design_text(),
                                {{"who = \"A. Engineer\"\n", ""}, {"membrane_kpa = 400\nwho = \"B. Roofer\"\n", ""}})));
  EXPECT_EQ(problems_of(page), "");
  for (const char* words : {"within the 2", "above the 2", "stay within the 2", "of the figure low"}) {
    EXPECT_EQ(page.text.find(words), std::string::npos) << words;
  }
  EXPECT_NE(page.text.find("no verdict"), std::string::npos);
}

TEST(ReportPage, AnInventedDesignIsMarked) {
  constexpr std::string_view mark = "Invented example";
  EXPECT_EQ(page_of(study_with_columns(small_design_text())).text.find(mark), std::string::npos);
  const std::string invented =
      edited(small_design_text(), {{"name = \"Small house\"\n", "name = \"Small house\"\ninvented = true\n"}});
  EXPECT_NE(page_of(study_with_columns(invented)).text.find(mark), std::string::npos);
}

TEST(ReportPage, CashAndComfortAreTwoFigures) {
  const Page page = page_of(study_with_columns(small_design_text()));
  EXPECT_NE(page.text.find("data-at=\"/money/cash_saving_per_year/value\""), std::string::npos);
  EXPECT_NE(page.text.find("data-at=\"/money/comfort_kwh_per_year/value\""), std::string::npos);
  EXPECT_NE(page.text.find("never added to cash"), std::string::npos);
}

}  // namespace
}  // namespace houseleek::studies
