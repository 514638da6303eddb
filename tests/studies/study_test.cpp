// A whole study of the small house: same bits on any threads, progress, cancel, and its text.
#include "studies/study.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <regex>
#include <set>
#include <thread>

#include "base/utf8.hpp"
#include "climate/write_csv.hpp"
#include "report/not_yet.hpp"
#include "report/paragraph.hpp"
#include "report/study_json.hpp"
#include "report/study_text.hpp"
#include "studies/partial.hpp"
#include "studies/small_study.hpp"
#include "studies/weather.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::studies {
namespace {

using report::Json;
using tests::edited;
using tests::short_options;
using tests::small_design_text;
using tests::study_of;

/// Every task in a thread of its own, the last first.
void run_in_threads(std::span<const Task> tasks, const std::function<void()>& watch) {
  std::vector<std::thread> threads;
  for (std::size_t i = tasks.size(); i-- > 0;) threads.emplace_back([&tasks, i] { tasks[i]({}); });
  watch();
  for (std::thread& thread : threads) thread.join();
  watch();
}

TEST(Study, SameBitsForOneAndManyThreads) {
  const std::string one = report::text_from(report::json_from(study_of(small_design_text())));
  const std::string many =
      report::text_from(report::json_from(study_of(small_design_text(), short_options(), run_in_threads)));
  EXPECT_EQ(one, many);
}

TEST(Study, SameBitsForEveryLaneWidthAndSetOfInstructions) {
  const std::string one = report::text_from(report::json_from(study_of(small_design_text())));
  StudyOptions options = short_options();
  options.run.instructions = simulation::Instructions::baseline;
  options.run.lane_width = 1;
  EXPECT_EQ(one, report::text_from(report::json_from(study_of(small_design_text(), options))));
}

TEST(Study, ProgressComesFromTheCallersThreadAndEndsAtOne) {
  std::set<std::thread::id> callers;
  std::vector<double> done;
  Context context;
  context.on_progress = [&](double done_frac) {
    callers.insert(std::this_thread::get_id());
    done.push_back(done_frac);
  };
  (void)study_of(small_design_text(), short_options(), run_in_threads, context);
  EXPECT_EQ(callers, std::set<std::thread::id>{std::this_thread::get_id()});
  ASSERT_GE(done.size(), 2U);
  EXPECT_TRUE(std::is_sorted(done.begin(), done.end()));
  EXPECT_NEAR(done.back(), 1.0, 1e-12);
}

TEST(Study, ProgressOfOneThreadRisesInSmallSteps) {
  std::vector<double> done;
  Context context;
  context.on_progress = [&](double done_frac) { done.push_back(done_frac); };
  (void)study_of(small_design_text(), short_options(), run_in_turn, context);
  EXPECT_TRUE(std::is_sorted(done.begin(), done.end()));
  EXPECT_GT(done.size(), 50U);
}

TEST(Study, ACancelEndsItWithoutAnAnswer) {
  std::atomic<bool> is_cancelled = false;
  Context context;
  context.is_cancelled = &is_cancelled;
  context.on_progress = [&](double done_frac) { is_cancelled = done_frac > 0.1; };
  EXPECT_THROW((void)study_of(small_design_text(), short_options(), run_in_turn, context), Cancelled);
}

TEST(Study, BooksCloseInEveryRun) {
  const report::StudyAnswer answer = study_of(small_design_text());
  EXPECT_LT(answer.engine.heat_residual_frac, 1e-8);
  EXPECT_LT(answer.engine.water_residual_m, 1e-9);
  EXPECT_GT(answer.engine.heat_residual_frac, 0.0);
}

TEST(Study, TheHouseIsTheSumOfItsRooms) {
  const std::string two_rooms =
      edited(small_design_text(), {{"name = \"bedroom\"\noutline = [[0, 0], [4, 0], [4, 3], [0, 3]]",
                                    "name = \"bedroom\"\noutline = [[0, 0], [2, 0], [2, 3], [0, 3]]"},
                                   {"[[recipe]]\nname", R"([[room]]
name = "study"
outline = [[2, 0], [4, 0], [4, 3], [2, 3]]
gains_day_w = 300
gains_night_w = 100
[[recipe]]
name)"}});
  const report::StudyAnswer answer = study_of(two_rooms);
  ASSERT_EQ(answer.rooms.size(), 2U);
  for (const report::CoverKind cover : report::all_covers) {
    const std::size_t i = report::index_of(cover);
    const auto of = [&](report::Figure report::RoomFigures::*figure) {
      return std::array<double, 3>{*(answer.rooms[0].covers[i].*figure).value,
                                   *(answer.rooms[1].covers[i].*figure).value, *(answer.house.covers[i].*figure).value};
    };
    for (const auto figure : {&report::RoomFigures::hours_above_limit, &report::RoomFigures::degree_hours_above_k_h,
                              &report::RoomFigures::heat_to_add_kwh, &report::RoomFigures::heat_to_remove_kwh}) {
      const auto [a, b, sum] = of(figure);
      EXPECT_NEAR(sum, a + b, 1e-9 * (1.0 + sum));
    }
    const auto [a, b, most] = of(&report::RoomFigures::operative_max_c);
    EXPECT_EQ(most, std::max(a, b));
  }
  EXPECT_FALSE(answer.rooms[1].covers[0].hours_above_limit_with_fan.value);
  EXPECT_FALSE(answer.rooms[1].covers[0].night);
  EXPECT_TRUE(answer.rooms[0].covers[0].night);
}

TEST(Study, WithNothingLaidPlantedIsBare) {
  const std::string text = edited(small_design_text(), {{R"([[patch]]
recipe = "thin stonecrop"
columns = 2
rows = 2
origin = [0.5, 0.4]
spacing_mm = 50
)",
                                                         ""}});
  const report::StudyAnswer answer = study_of(text);
  const report::RoomFigures& bare = answer.house.covers[report::index_of(report::CoverKind::bare)];
  const report::RoomFigures& planted = answer.house.covers[report::index_of(report::CoverKind::planted)];
  EXPECT_EQ(*bare.degree_hours_above_k_h.value, *planted.degree_hours_above_k_h.value);
  EXPECT_EQ(*answer.money.comfort_kwh_per_year.value, 0.0);
  EXPECT_FALSE(answer.water.retained_frac.value);
  EXPECT_NE(report::text_from(answer).find("nothing is laid yet"), std::string::npos);
}

TEST(Study, AYearFromAFileAnswersAsTheYearThatWasWrittenToIt) {
  const design::ValidDesign from_normals = tests::valid_design(small_design_text());
  const climate::WeatherYear year = make_weather(from_normals, std::nullopt).value();
  std::string text = small_design_text();
  text = text.substr(0, text.find("[climate.normals]")) + text.substr(text.find("[roof]"));
  const design::ValidDesign from_file = tests::valid_design(edited(text, {{"seed = 7", "file = \"year.csv\""}}));
  const Result<climate::WeatherYear> read =
      make_weather(from_file, NamedText{"year.csv", climate::write_year_csv(year)});
  ASSERT_TRUE(read);
  const auto house_of = [](const design::ValidDesign& design, const climate::WeatherYear& weather) {
    return report::json_from(study(design, tests::shipped_catalogue(), weather, short_options(), run_in_turn, {}));
  };
  const Json before = house_of(from_normals, year);
  const Json after = house_of(from_file, read.value());
  EXPECT_EQ(before.at("house").dump(), after.at("house").dump());
  EXPECT_EQ(before.at("water").dump(), after.at("water").dump());
  EXPECT_NE(before.at("weather").at("source"), after.at("weather").at("source"));
}

TEST(Study, WhatWaterAndMoneyAssumeIsListed) {
  const auto has = [](const report::StudyAnswer& answer, std::string_view path) {
    return std::any_of(answer.assumed.begin(), answer.assumed.end(),
                       [&](const design::Assumption& one) { return one.path == path; });
  };
  const report::StudyAnswer answer = study_of(small_design_text());
  EXPECT_TRUE(has(answer, "money.cuttings_per_m2"));
  EXPECT_FALSE(has(answer, "recipe[0].watering.when_store_below_frac"));
  const report::StudyAnswer never_watered =
      study_of(edited(small_design_text(),
                      {{"[recipe.watering]\nwhen_store_below_frac = 0.6\nlitres_per_module = 6\nhour = 7\n", ""}}));
  EXPECT_TRUE(has(never_watered, "recipe[0].watering.when_store_below_frac"));
}

TEST(Study, CashAndComfortAreNeverAdded) {
  const Json money = report::json_from(study_of(small_design_text())).at("money");
  EXPECT_EQ(money.at("cash_saving_per_year").at("value"), 0.0);
  EXPECT_GT(money.at("comfort_kwh_per_year").at("value"), 0.0);
  EXPECT_TRUE(money.at("payback_years").is_null());
  EXPECT_FALSE(money.at("payback_why").get<std::string>().empty());
}

TEST(Study, ARivalThatDoesMoreForItsMoneyStandsFirst) {
  const report::StudyAnswer answer = study_of(small_design_text());
  ASSERT_TRUE(answer.rivals.front().is_better_for_its_money);
  EXPECT_EQ(answer.answers.front().question, "Rivals?");
  EXPECT_NE(answer.answers.front().text.find("paint on the same squares does more for its money"), std::string::npos);
}

// ---- Fields that later work owns.

void collect_not_yet(const Json& node, const std::string& path, std::set<std::string>& found) {
  if (node.is_object() && node.contains("status") && node.at("status") == "not_yet") {
    EXPECT_EQ(node.size(), 1U) << path;
    found.insert(path);
    return;
  }
  if (node.is_object()) {
    for (const auto& [key, child] : node.items()) collect_not_yet(child, path.empty() ? key : path + "." + key, found);
  }
  if (node.is_array()) {
    for (const Json& child : node) collect_not_yet(child, path + "[]", found);
  }
}

TEST(Study, NotYetFieldsAreThoseOfTheList) {
  std::set<std::string> found;
  collect_not_yet(report::json_from(study_of(small_design_text())), "", found);
  EXPECT_EQ(found, std::set<std::string>(std::begin(report::not_yet_fields), std::end(report::not_yet_fields)));
  EXPECT_LE(found.size(), 6U) << "the list may only become shorter";
}

// ---- The text.

void expect_page(const std::string& text, std::size_t most_lines) {
  std::size_t n_lines = 0;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    ASSERT_NE(end, std::string::npos) << "the last line ends";
    const std::string_view line = std::string_view(text).substr(at, end - at);
    EXPECT_LE(count_characters(line), report::page_width) << line;
    for (const char c : line) EXPECT_GE(static_cast<unsigned char>(c), 0x20U) << line;
    at = end + 1;
    ++n_lines;
  }
  EXPECT_LE(n_lines, most_lines) << text;
}

/// Words that promise what no program may promise.
void expect_no_promise(const std::string& text) {
  std::smatch found;
  const std::regex promise(R"(\b(safe|safely|ok|okay|pass|passes|passed)\b)", std::regex::icase);
  EXPECT_FALSE(std::regex_search(text, found, promise)) << found.str() << " in " << text;
}

TEST(StudyText, FitsOneScreen) {
  const report::StudyAnswer answer = study_of(small_design_text());
  expect_page(report::text_of_questions(answer), 24);
  // Cautions stand above the screen of answers.
  expect_page(report::text_of_cautions(answer), 8);
  EXPECT_EQ(report::text_from(answer).rfind("CAUTION:", 0), 0U) << "cautions come first";
}

TEST(StudyText, FitsOneScreenWithLongNamesAndLargeFigures) {
  std::string text = small_design_text();
  const std::string long_name(300, 'w');
  for (const char* name : {"\"Small house\"", "\"A. Engineer\"", "\"bedroom\""}) {
    text = edited(text, {{name, "\"" + long_name + "\""}});
  }
  for (const char* line : {"name = \"thin stonecrop\"", "recipe = \"thin stonecrop\""}) {
    const std::string_view whole(line);
    const std::string with_long(whole.substr(0, whole.find('"') + 1));
    text = edited(text, {{std::string(whole), with_long + long_name + "s\""}});
  }
  report::StudyAnswer answer = study_of(text);
  for (report::RoomFigures& figures : answer.house.covers) {
    figures.degree_hours_above_k_h.value = 1234567.0;
    figures.heat_to_add_kwh.value = 12345678.0;
    figures.hours_above_limit_with_fan.value = 350400.0;
  }
  expect_page(report::text_of_questions(answer), 24);
}

TEST(StudyText, EveryLineLetterByLetter) {
  // Figures are set by hand, so that only the form of the page is judged here.
  report::StudyAnswer answer;
  answer.design_name = "Small house";
  answer.roof.n_modules = 4;
  answer.roof.covered_m2 = 4.0;
  answer.roof.area_m2 = 12.0;
  answer.cautions = {{"a", "always", "First one. With more.", "x"}, {"b", "always", "Second: and why", "x"}};
  answer.answers = {
      {"1 Carry it?", "a sentence that is long enough to be broken where the line of eighty characters ends"},
      {"0 Sound? 5 Drain? 7 Live there?", "not computed yet"}};
  EXPECT_EQ(report::text_from(answer),
            "CAUTION: First one. Second.\n"
            "Small house: 4 modules on 4.00 of 12.0 m2, bare against planted\n"
            "1 Carry it?  a sentence that is long enough to be broken where the line of\n"
            "             eighty characters ends\n"
            "0 Sound? 5 Drain? 7 Live there? not computed yet\n"
            "Heat and water: one year's weather only. The rest: --json; houseleek check.\n");
}

TEST(StudyText, NoWordPromisesAnything) {
  for (const std::string& text :
       {small_design_text(), tests::checked_design_text(), edited(small_design_text(), {{"when = 2024-03-01\n", ""}}),
        edited(small_design_text(), {{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 0.5"}})}) {
    const report::StudyAnswer answer = study_of(text);
    expect_no_promise(report::text_from(answer));
    expect_no_promise(report::text_from(report::json_from(answer)));
    expect_no_promise(text_without_runs(tests::valid_design(text), tests::shipped_catalogue()));
  }
}

/// Values of every field of that name, wherever it stands.
void collect_texts(const Json& node, std::string_view ending, std::set<std::string>& found) {
  if (node.is_object()) {
    for (const auto& [key, child] : node.items()) {
      if (child.is_string() && std::string_view(key).ends_with(ending)) found.insert(child.get<std::string>());
      collect_texts(child, ending, found);
    }
  }
  if (node.is_array()) {
    for (const Json& child : node) collect_texts(child, ending, found);
  }
}

TEST(StudyText, WithoutAFigureThereIsNoVerdict) {
  for (const char* line :
       {"who = \"A. Engineer\"\n", "when = 2024-03-01\n", "includes = \"old screed\"\n", "load_kn_per_m2 = 2.0\n"}) {
    const report::StudyAnswer answer = study_of(edited(tests::checked_design_text(), {{line, ""}}));
    EXPECT_EQ(answer.load.verdict, "none");
    EXPECT_FALSE(answer.load.utilisation_local_max_frac.value);
    EXPECT_FALSE(answer.load.utilisation_span_max_frac.value);
    const std::string text = report::text_from(answer);
    EXPECT_NE(text.find("no verdict, nobody wrote down"), std::string::npos) << text;
    Json load = report::json_from(answer).at("load");
    load.erase("feet");  // against what a roofer wrote down for the membrane
    std::set<std::string> verdicts;
    collect_texts(load, "verdict", verdicts);
    EXPECT_EQ(verdicts, std::set<std::string>{"none"}) << line;
    const std::string document = load.dump();
    for (const char* words : {"within the", "above the", "stay within"}) {
      EXPECT_EQ(document.find(words), std::string::npos) << words << " in " << document;
      EXPECT_EQ(text.find(words), std::string::npos) << words << " in " << text;
    }
  }
}

TEST(StudyText, EitherTestThatFailsRefuses) {
  const auto load_of = [](const std::vector<tests::Edit>& edits) {
    return study_of(edited(tests::checked_design_text(), edits)).load;
  };
  const report::LoadAnswer both = load_of({});
  EXPECT_EQ(both.uniform.verdict, "within");
  EXPECT_EQ(both.spans.verdict, "within");
  EXPECT_EQ(both.verdict, "within");
  // One end of the deck carries a hole: what lies beside it has no model, so nothing is shown along the spans.
  const report::LoadAnswer hole = load_of({{"[roof.structure]",
                                            "[[roof.obstacle]]\nname = \"hatch\"\nkind = \"hatch\"\nheight_mm = 300\n"
                                            "outline = [[3, 1], [3.5, 1], [3.5, 1.4], [3, 1.4]]\n[roof.structure]"}});
  EXPECT_EQ(hole.uniform.verdict, "within");
  EXPECT_EQ(hole.spans.verdict, "not_shown");
  EXPECT_EQ(hole.verdict, "not_shown");
  const report::LoadAnswer weak = load_of({{"load_kn_per_m2 = 2.0", "load_kn_per_m2 = 0.5"}});
  EXPECT_EQ(weak.uniform.verdict, "above");
  EXPECT_EQ(weak.verdict, "above");
  // Nobody said how the deck carries: the even test alone clears nothing, and still refuses.
  const report::StudyAnswer unknown = study_of(small_design_text());
  EXPECT_EQ(unknown.load.uniform.verdict, "within");
  EXPECT_EQ(unknown.load.verdict, "none");
  EXPECT_EQ(unknown.answers[1].question, "1 Carry it?");
  EXPECT_NE(unknown.answers[1].text.find("bending unknown, so no verdict"), std::string::npos)
      << unknown.answers[1].text;
}

TEST(StudyText, WindAndWaterHaveTheirFiguresAndTheirCautions) {
  const report::StudyAnswer answer = study_of(tests::checked_design_text());
  const std::string text = report::text_from(answer);
  EXPECT_NE(text.find("not shown to stay above"), std::string::npos) << text;
  EXPECT_NE(text.find("local codes decide"), std::string::npos) << text;
  EXPECT_NE(text.find("which an engineer"), std::string::npos) << text;
  EXPECT_NE(text.find("5 Drain?     drains"), std::string::npos) << text;
}

TEST(StudyText, APartSaysThatItIsOne) {
  const std::string text = text_without_runs(tests::valid_design(small_design_text()), tests::shipped_catalogue());
  EXPECT_EQ(text.rfind("PARTIAL, interrupted", 0), 0U);
  expect_page(text, 40);
}

}  // namespace
}  // namespace houseleek::studies
