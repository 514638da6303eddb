// Trials as a household runs them: plan, keep, type in, see what is missing, judge, import of loggers that look wrong.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "stats/sampling.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {
namespace {

using nlohmann::json;

std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

constexpr const char* two_pairs = R"toml(
[[trial]]
name = "raised or bare"
# What would make us build more.
wanted_difference = 2
first_day = 2026-03-01
last_day = 2026-03-14
[[trial.side]]
name = "raised"
recipe = "thin stonecrop"
[[trial.side]]
name = "bare"
[[trial.place]]
name = "A1"  # by the hatch
[[trial.place]]
name = "A2"
)toml";

/// A project with a trial of one module a side.
struct Household {
  const TemporaryFolder folder;
  std::string toml;

  explicit Household(const std::string& trial = two_pairs) : toml(small_design_text() + trial) {
    (void)folder.write("roof.toml", toml);
    const ProgramRun run = houseleek({"import", "roof.toml", "--to", "a.houseleek"});
    EXPECT_EQ(run.exit_code, 0) << run.err;
  }
  [[nodiscard]] ProgramRun houseleek(const std::vector<std::string>& arguments) const {
    return run_program(arguments, folder.path());
  }
  [[nodiscard]] ProgramRun trial(const std::string& word, std::vector<std::string> arguments = {}) const {
    arguments.insert(arguments.begin(), {"trial", word, "a.houseleek"});
    return houseleek(arguments);
  }
  [[nodiscard]] json trial_json(const std::string& word, std::vector<std::string> arguments = {}) const {
    arguments.emplace_back("--json");
    const ProgramRun run = trial(word, std::move(arguments));
    EXPECT_EQ(run.exit_code, 0) << run.err;
    return run.out.empty() ? json() : json::parse(run.out);
  }
};

/// A text as if it had one line: words stand apart by one blank.
std::string flat(const std::string& text) {
  std::string words;
  for (const char c : text) {
    const char one = c == '\n' ? ' ' : c;
    if (one != ' ' || words.empty() || words.back() != ' ') words += one;
  }
  return words;
}

/// Every line of a household's text fits a narrow terminal.
void expect_narrow(const std::string& text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    EXPECT_LE(end - at, 80U) << text.substr(at, end - at);
    at = end + 1;
  }
}

/// Two looks a day for 14 days: raised is cooler by `difference` in the afternoon; invented noise of 0.5 K.
std::string table_of_readings(double difference, std::uint64_t seed, char delimiter = ',') {
  const RandomVariable noise = random_variable(seed, "hand readings");
  std::string text = fmt::format("at{0}A1{0}A2\n", delimiter);
  for (int day = 0; day < 14; ++day) {
    const double weather = 3.0 * std::sin(0.9 * day);
    const auto value = [&](std::uint32_t index, double mean) {
      std::string number = fmt::format("{:.1f}", mean + weather + 0.5 * stats::random_normal(noise, {0, day, index}));
      if (delimiter != ',') number[number.find('.')] = ',';
      return number;
    };
    text +=
        fmt::format("2026-03-{:02d}T06:05{}{}{}{}\n", day + 1, delimiter, value(0, 14.0), delimiter, value(1, 14.0));
    text += fmt::format("2026-03-{:02d}T16:10{}{}{}{}\n", day + 1, delimiter, value(2, 30.0 - difference), delimiter,
                        value(3, 30.0));
  }
  return text;
}

TEST(TrialPlan, ATrialInTheDesignIsPlannedAndKept) {
  const Household house;
  const ProgramRun plan = house.trial("plan");
  ASSERT_EQ(plan.exit_code, 0) << plan.err;
  expect_narrow(plan.out);
  EXPECT_NE(flat(plan.out).find("Pair these two"), std::string::npos) << plan.out;
  EXPECT_NE(flat(plan.out).find("these modules only"), std::string::npos) << plan.out;
  EXPECT_NE(plan.out.find("side = \""), std::string::npos) << plan.out;
  EXPECT_EQ(flat(plan.out).find("Foreseen error"), std::string::npos);
  EXPECT_NE(flat(house.trial("plan", {"--adviser"}).out).find("Foreseen error"), std::string::npos);
  const ProgramRun kept = house.trial("plan", {"--keep"});
  EXPECT_NE(kept.out.find("Kept as revision 2"), std::string::npos) << kept.out;
  // Comments and order stay; each place has its side.
  const std::string text = house.houseleek({"export", "a.houseleek"}).out;
  EXPECT_NE(text.find("# What would make us build more.\n"), std::string::npos);
  EXPECT_NE(text.find("name = \"A1\"  # by the hatch\nside = \""), std::string::npos) << text;
  const json again = house.trial_json("plan", {"--keep"});
  EXPECT_EQ(again.at("was_given_out"), true);
  EXPECT_EQ(again.at("revision"), nullptr);
  // What is given out is what the plan before said.
  const json before = json::parse(house.houseleek({"trial", "plan", "roof.toml", "--json"}).out);
  EXPECT_EQ(again.at("assignments"), before.at("assignments"));
  EXPECT_EQ(before.at("was_given_out"), false);
}

TEST(TrialPlan, ATrialFromTheCommandLine) {
  const Household house("");
  const std::vector<std::string> words = {"--name",  "net or none", "--side",       "net", "--side",  "none",
                                          "--place", "A1",          "--place",      "A2",  "--place", "B1",
                                          "--place", "B2",          "--difference", "1.5"};
  const ProgramRun plan = house.trial("plan", words);
  ASSERT_EQ(plan.exit_code, 0) << plan.err;
  EXPECT_NE(plan.out.find("[[trial]]\n"), std::string::npos) << plan.out;
  EXPECT_NE(plan.out.find("wanted_difference = 1.5\n"), std::string::npos);
  std::vector<std::string> keep = words;
  keep.emplace_back("--keep");
  ASSERT_EQ(house.trial("plan", keep).exit_code, 0);
  const std::string text = house.houseleek({"export", "a.houseleek"}).out;
  EXPECT_EQ(text.substr(0, house.toml.size()), house.toml);
  EXPECT_NE(text.find("block = \"block 1\""), std::string::npos) << text;
  // Places that are not needed stay without a side, and the plan stands as it was given out.
  EXPECT_EQ(house.trial_json("plan").at("was_given_out"), true);
  const json both = json::parse(house.trial("plan", {"--json"}).out);
  EXPECT_EQ(both.at("assignments").size(), 2U);
  // The same name again is refused, and says so without a place in a file that does not hold it.
  const ProgramRun twice = house.trial("plan", keep);
  EXPECT_EQ(twice.exit_code, 1);
  EXPECT_NE(twice.err.find("trial[1].name is there twice"), std::string::npos) << twice.err;
  const ProgramRun description = house.houseleek({"trial", "plan", "roof.toml", "--keep"});
  EXPECT_EQ(description.exit_code, 2);
  EXPECT_NE(description.err.find("houseleek import roof.toml --to roof.houseleek"), std::string::npos);
}

TEST(TrialPlan, WhatCannotBeMetIsSaid) {
  const Household none("");
  const ProgramRun without = none.trial("plan");
  EXPECT_EQ(without.exit_code, 1);
  EXPECT_NE(without.err.find("the design has no trial"), std::string::npos) << without.err;
  const std::string half = edited(two_pairs, {{"name = \"A2\"\n", "name = \"A2\"\nside = \"bare\"\n"}});
  const Household house(half);
  const ProgramRun run = house.trial("plan");
  EXPECT_EQ(run.exit_code, 1);
  EXPECT_NE(run.err.find("not every side has a place"), std::string::npos) << run.err;
  const ProgramRun wrong = house.trial("judge", {"--trial", "raised or baer"});
  EXPECT_EQ(wrong.exit_code, 1);
  EXPECT_NE(wrong.err.find("did you mean \"raised or bare\"?"), std::string::npos) << wrong.err;
}

TEST(TrialRead, ARoundOnOneLineAndWhatIsMissing) {
  const Household house;
  const ProgramRun read = house.trial("read", {"--at", "2026-03-02T06:05", "A1=14.2", "A2=13.9"});
  ASSERT_EQ(read.exit_code, 0) << read.err;
  expect_narrow(read.out);
  EXPECT_NE(read.out.find("2 readings noted"), std::string::npos) << read.out;
  EXPECT_NE(read.out.find("2026-03-01  after noon: all places"), std::string::npos) << read.out;
  const json events = json::parse(house.houseleek({"log", "a.houseleek", "read_off", "--json"}).out.empty()
                                      ? "{}"
                                      : house.houseleek({"log", "a.houseleek", "--json"}).out);
  EXPECT_EQ(events.at("n_events"), 2);
  EXPECT_EQ(events.at("events")[0].at("module"), "A1");
  EXPECT_EQ(events.at("events")[0].at("temperature_c"), 14.2);
  // The same round again is known; another value of the same look is refused with the way out, and nothing is written.
  const ProgramRun again = house.trial("read", {"--at", "2026-03-02T06:05", "A1=14.2", "A2=13.9"});
  EXPECT_NE(again.out.find("0 readings noted, 2 were there already"), std::string::npos) << again.out;
  const ProgramRun other = house.trial("read", {"--at", "2026-03-02T06:05", "A1=15", "A2=13.9"});
  EXPECT_EQ(other.exit_code, 1);
  EXPECT_NE(other.err.find("A1 has 14.2 degC"), std::string::npos) << other.err;
  EXPECT_NE(other.err.find("--corrects 1"), std::string::npos) << other.err;
  const ProgramRun unknown = house.trial("read", {"--at", "2026-03-02T16:05", "A1=30", "A3=31", "A2=warm"});
  EXPECT_EQ(unknown.exit_code, 1);
  EXPECT_NE(unknown.err.find("no place \"A3\""), std::string::npos) << unknown.err;
  EXPECT_NE(unknown.err.find("A2: "), std::string::npos) << unknown.err;
  EXPECT_EQ(json::parse(house.houseleek({"log", "a.houseleek", "--json"}).out).at("n_events"), 2);
  const ProgramRun no_time = house.trial("read", {"--at", "2026-03-02", "A1=30"});
  EXPECT_EQ(no_time.exit_code, 1);
  EXPECT_NE(no_time.err.find("says no time of day"), std::string::npos) << no_time.err;
  EXPECT_EQ(house.trial("read", {"A1"}).exit_code, 2);
}

TEST(TrialRead, FahrenheitBecomesCelsius) {
  const Household house;
  ASSERT_EQ(house.trial("read", {"--at", "2026-03-02T16:05", "--unit", "degF", "A1=86", "A2=95"}).exit_code, 0);
  const json events = json::parse(house.houseleek({"log", "a.houseleek", "--json"}).out).at("events");
  EXPECT_NEAR(events[0].at("temperature_c").get<double>(), 30.0, 1e-9);
  EXPECT_NEAR(events[1].at("temperature_c").get<double>(), 35.0, 1e-9);
}

TEST(TrialRead, ATableHasAllOrNothing) {
  const Household house;
  (void)house.folder.write("t.csv", table_of_readings(3.0, 1, ';'));
  const json read = house.trial_json("read", {"--table", "t.csv"});
  EXPECT_EQ(read.at("n_noted"), 56);
  EXPECT_EQ(read.at("n_days_whole"), 14);
  EXPECT_TRUE(read.at("missing").empty());
  (void)house.folder.write("wrong.csv", "at,A1,B7\n2026-03-02T07:00,1,2\n,3,4\n2026-03-02T07:30,1,2,3\n");
  const ProgramRun wrong = house.trial("read", {"--table", "wrong.csv"});
  EXPECT_EQ(wrong.exit_code, 1);
  EXPECT_NE(wrong.err.find("wrong.csv:1:7: error: the trial has no place \"B7\""), std::string::npos) << wrong.err;
  EXPECT_NE(wrong.err.find("wrong.csv:3:1: error: this row says no moment"), std::string::npos) << wrong.err;
  EXPECT_NE(wrong.err.find("this row has 4 fields"), std::string::npos) << wrong.err;
  EXPECT_EQ(json::parse(house.houseleek({"log", "a.houseleek", "--json"}).out).at("n_events"), 56);
}

TEST(TrialJudge, TwoModulesSpeakOfThemselvesOnly) {
  const Household house;
  ASSERT_EQ(house.trial("plan", {"--keep"}).exit_code, 0);
  const json plan = house.trial_json("plan");
  (void)house.folder.write("t.csv", table_of_readings(4.0, 2));
  ASSERT_EQ(house.trial("read", {"--table", "t.csv"}).exit_code, 0);
  const ProgramRun judge = house.trial("judge", {"--report", "verdict.html"});
  ASSERT_EQ(judge.exit_code, 0) << judge.err;
  expect_narrow(judge.out);
  EXPECT_NE(flat(judge.out).find("This is about these modules only"), std::string::npos) << judge.out;
  const json verdict = house.trial_json("judge");
  const json& main = verdict.at("measures")[0];
  EXPECT_EQ(main.at("measure"), "maximum");
  EXPECT_EQ(main.at("is_main"), true);
  const json& one = main.at("comparisons")[0];
  EXPECT_EQ(one.at("about"), "these_modules");
  // A1 is the cooler place, whichever side it got.
  const bool is_a1_raised = plan.at("assignments")[0].at("side") == "raised";
  EXPECT_EQ(one.at("side"), "raised");
  EXPECT_EQ(one.at("outcome"), is_a1_raised ? "lower" : "higher");
  const double truth = is_a1_raised ? -4.0 : 4.0;
  EXPECT_LE(one.at("difference").at("low").get<double>(), truth);
  EXPECT_GE(one.at("difference").at("high").get<double>(), truth);
  const std::string page = file_text(house.folder.path() + "/verdict.html");
  EXPECT_NE(page.find("<svg id=\"trial-days-levels\""), std::string::npos);
  EXPECT_NE(page.find("<svg id=\"trial-intervals-1\""), std::string::npos);
  EXPECT_EQ(page.find("<script"), std::string::npos);
  EXPECT_EQ(page.find("http://"), std::string::npos);
}

TEST(TrialJudge, NoDifferenceIsNotToldApartAndMoreIsNamed) {
  const Household house;
  ASSERT_EQ(house.trial("plan", {"--keep"}).exit_code, 0);
  (void)house.folder.write("t.csv", table_of_readings(0.0, 3));
  ASSERT_EQ(house.trial("read", {"--table", "t.csv"}).exit_code, 0);
  const ProgramRun judge = house.trial("judge");
  EXPECT_NE(flat(judge.out).find("not told apart"), std::string::npos) << judge.out;
  const json one = house.trial_json("judge").at("measures")[0].at("comparisons")[0];
  EXPECT_EQ(one.at("outcome"), "not_told_apart");
  EXPECT_EQ(one.at("more").at("difference"), 2.0);
  EXPECT_TRUE(one.at("more").at("days").is_number());
}

TEST(TrialJudge, GradesAndDeathsFromEvents) {
  const Household house;
  ASSERT_EQ(house.trial("plan", {"--keep"}).exit_code, 0);
  const auto log = [&house](std::vector<std::string> words) {
    words.insert(words.begin(), {"log", "a.houseleek"});
    const ProgramRun run = house.houseleek(words);
    EXPECT_EQ(run.exit_code, 0) << run.err;
  };
  for (const std::string module : {"A1", "A2"}) {
    log({"planted_out", "--at", "2026-02-20", "--batch", "b1", "--count", "20", "--module", module});
    log({"looked_at", "--at", "2026-03-10", "--module", module, "--vigour", module == "A1" ? "4" : "2"});
    log({"watered", "--at", "2026-03-09", "--module", module, "--water-l", "6"});
  }
  log({"died", "--at", "2026-03-12", "--count", "15", "--module", "A2"});
  const json verdict = house.trial_json("judge");
  std::vector<std::string> what;
  for (const json& score : verdict.at("scores")) what.push_back(score.at("what"));
  EXPECT_EQ(what, (std::vector<std::string>{"vigour", "litres given", "share alive"}));
  // One module a side: grades say too little, plants of these modules are told apart (5 of 20 against 20 of 20).
  EXPECT_EQ(verdict.at("scores")[0].at("comparisons")[0].at("outcome"), "too_few");
  const json& alive = verdict.at("scores")[2].at("comparisons")[0];
  EXPECT_NE(alive.at("outcome"), "not_told_apart");
  EXPECT_EQ(alive.at("about"), "these_modules");
  EXPECT_TRUE(alive.contains("share_side"));
}

TEST(TrialJudge, NothingReadIsSaid) {
  const Household house;
  const ProgramRun judge = house.trial("judge");
  EXPECT_EQ(judge.exit_code, 0) << judge.err;
  EXPECT_NE(judge.out.find("no day yet"), std::string::npos) << judge.out;
  EXPECT_NE(judge.out.find("Nothing can be said yet."), std::string::npos) << judge.out;
  EXPECT_NE(flat(judge.out).find("2 of 2 places have no side"), std::string::npos) << judge.out;
  EXPECT_EQ(house.houseleek({"trial", "judge", "roof.toml"}).exit_code, 2);
}

TEST(TrialLoggers, ImportSaysWhatLooksWrong) {
  const Household house;
  std::string csv = "time,temp (degC)\n";
  for (int i = 0; i < 2 * 96; ++i) {
    // The second day it stands still.
    const double value = i < 96 ? 20.0 + 6.0 * std::sin(i / 15.0) : 21.5;
    csv += fmt::format("2026-03-{:02d}T{:02d}:{:02d}Z,{:.2f}\n", 2 + i / 96, i % 96 / 4, i % 4 * 15, value);
  }
  (void)house.folder.write("a.csv", csv);
  const ProgramRun run = house.houseleek({"import", "a.csv", "--to", "a.houseleek", "--logger", "A1"});
  ASSERT_EQ(run.exit_code, 0) << run.err;
  EXPECT_NE(run.out.find("Looks wrong (flagged, and kept as it is):"), std::string::npos) << run.out;
  EXPECT_NE(run.out.find("- A1: "), std::string::npos) << run.out;
  // All 192 readings are there.
  EXPECT_NE(run.out.find("192 readings from 192 rows"), std::string::npos) << run.out;
  const json again =
      json::parse(house.houseleek({"import", "a.csv", "--to", "a.houseleek", "--logger", "A1", "--json"}).out);
  EXPECT_EQ(again.at("readings").at("flags")[0].at("kind"), "stuck");
  EXPECT_EQ(again.at("readings").at("flags")[0].at("sensor"), "A1");
}

}  // namespace
}  // namespace houseleek::tests
