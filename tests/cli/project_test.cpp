// Projects as a person keeps them: import, log, list, export; and what commands say where a file fails.
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "support/small_design.hpp"
#include "support/small_disk.hpp"

namespace houseleek::tests {
namespace {

std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// The program in a folder.
struct Household {
  const TemporaryFolder folder;
  std::string toml = small_design_text();

  Household() {
    (void)folder.write("roof.toml", toml);
    const ProgramRun run = houseleek({"import", "roof.toml", "--to", "a.houseleek"});
    EXPECT_EQ(run.exit_code, 0) << run.err;
    EXPECT_EQ(run.out, "a.houseleek: a new project, revision 1 of the design\n");
  }
  [[nodiscard]] ProgramRun houseleek(const std::vector<std::string>& arguments) const {
    return run_program(arguments, folder.path());
  }
  [[nodiscard]] ProgramRun log(std::vector<std::string> arguments) const {
    arguments.insert(arguments.begin(), {"log", "a.houseleek"});
    return houseleek(arguments);
  }
  [[nodiscard]] std::string project_bytes() const { return file_text(folder.path() + "/a.houseleek"); }
};

TEST(Project, ADesignComesOutByteForByte) {
  Household house;
  EXPECT_EQ(house.houseleek({"export", "a.houseleek"}).out, house.toml);
  EXPECT_EQ(house.houseleek({"import", "roof.toml", "--to", "a.houseleek"}).out,
            "a.houseleek: revision 1 has the very same text; nothing was written\n");
  const std::string changed = house.toml + "# a line that its owner added, without an end";
  (void)house.folder.write("roof.toml", changed);
  EXPECT_EQ(house.houseleek({"import", "roof.toml", "--to", "a.houseleek", "--note", "a line"}).out,
            "a.houseleek: revision 2 of the design\n");
  EXPECT_EQ(house.houseleek({"export", "a.houseleek"}).out, changed);
  EXPECT_EQ(house.houseleek({"export", "a.houseleek", "--revision", "1"}).out, house.toml);
  const ProgramRun none = house.houseleek({"export", "a.houseleek", "--revision", "3"});
  EXPECT_EQ(none.exit_code, 1);
  EXPECT_EQ(none.out, "");
  EXPECT_EQ(
      none.err,
      "error: there is no revision 3; the project has 2\n  hint: the newest is taken where --revision is left away\n");
}

TEST(Project, WhatWasWeighedStandsBehindTheBuildOrderToo) {
  const Household house;
  const std::string deck =
      "[roof.structure]\nkind = \"one_way_slab\"\nspans_along = \"x\"\nsupports_at_m = [0, 4]\n[rivals]";
  (void)house.folder.write("roof.toml", edited(house.toml, {{"[rivals]", deck}}));
  ASSERT_EQ(house.houseleek({"import", "roof.toml", "--to", "a.houseleek"}).exit_code, 0);
  const std::vector<std::string> order = {"order", "a.houseleek", "--budget", "100", "--json"};
  const std::string refused = "not shown to stay within";
  EXPECT_EQ(house.houseleek(order).out.find(refused), std::string::npos);
  // Twice what its materials would weigh: 1.9 kN/m2 of the 2.0 that the engineer wrote down, with a range.
  ASSERT_EQ(house.log({"weighed", "--recipe", "thin stonecrop", "--mass-kg", "195", "--wetness", "soaked"}).exit_code,
            0);
  EXPECT_NE(house.houseleek(order).out.find(refused), std::string::npos);
}

TEST(Project, ADesignWithIssuesIsNotKept) {
  const Household house;
  const std::string before = house.project_bytes();
  (void)house.folder.write("roof.toml", "format = 1\n");
  EXPECT_EQ(house.houseleek({"import", "roof.toml", "--to", "a.houseleek"}).exit_code, 1);
  EXPECT_EQ(house.project_bytes(), before);
  EXPECT_EQ(house.houseleek({"import", "roof.toml", "--to", "new.houseleek"}).exit_code, 1);
  EXPECT_FALSE(std::filesystem::exists(house.folder.path() + "/new.houseleek"));
}

TEST(Project, CommandsThatReadTakeEither) {
  const Household house;
  for (const std::string command : {"check", "weather"}) {
    const nlohmann::json of_design = nlohmann::json::parse(house.houseleek({command, "roof.toml", "--json"}).out);
    nlohmann::json of_project = nlohmann::json::parse(house.houseleek({command, "a.houseleek", "--json"}).out);
    if (command == "check") {
      EXPECT_EQ(of_project.at("file"), "a.houseleek revision 1");
      of_project["file"] = of_design["file"];
    }
    EXPECT_EQ(of_project, of_design) << command;
  }
}

TEST(Project, EventsAreNotedCorrectedAndWithdrawn) {
  const Household house;
  EXPECT_EQ(house.log({"watered", "--module", "A1", "--water-l", "6", "--at", "2026-07-03T08:15"}).out,
            "    1: watered 2026-07-03T08:15+02:00, module A1, water 6 l\n");
  EXPECT_EQ(house.log({"read_off", "--room", "bedroom", "--temperature-c", "-5", "--at", "2026-01-03T07:00"}).out,
            "    2: read_off 2026-01-03T07:00+01:00, room bedroom, temperature -5 \u00B0C\n");
  EXPECT_EQ(house
                .log({"stock_in", "--item", "coir", "--mass-kg", "5", "--cost", "12.4", "--currency", "EUR", "--at",
                      "2026-02-01"})
                .out,
            "    3: stock_in 2026-02-01, item coir, mass 5 kg, 12.4 EUR\n");
  EXPECT_EQ(house.log({"watered", "--corrects", "1", "--water-l", "7"}).out,
            "    4: watered 2026-07-03T08:15+02:00, module A1, water 7 l (instead of 1)\n");
  EXPECT_EQ(house.log({"withdrawn", "--corrects", "3", "--note", "never came"}).exit_code, 0);
  EXPECT_EQ(house.log({}).out,
            "    2: read_off 2026-01-03T07:00+01:00, room bedroom, temperature -5 \u00B0C\n"
            "    4: watered 2026-07-03T08:15+02:00, module A1, water 7 l (instead of 1)\n"
            "2 events\n");
  EXPECT_EQ(house.log({"--since", "2026-07-03", "--module", "A1"}).out,
            "    4: watered 2026-07-03T08:15+02:00, module A1, water 7 l (instead of 1)\n1 event\n");
  const nlohmann::json all = nlohmann::json::parse(house.log({"--all", "--json"}).out);
  EXPECT_EQ(all.at("n_events"), 5);
  EXPECT_EQ(all.at("events").at(1).at("superseded_by"), 5);
  const ProgramRun again = house.log({"watered", "--corrects", "1", "--water-l", "8"});
  EXPECT_EQ(again.exit_code, 1);
  EXPECT_EQ(again.err, "error: event 1 has been corrected already, by event 4\n  hint: correct event 4\n");
  EXPECT_EQ(house.log({"withdrawn"}).exit_code, 1);
  EXPECT_EQ(house.log({"watered", "--corrects", "99"}).exit_code, 1);
}

TEST(Project, AnEventWithIssuesIsNotNoted) {
  const Household house;
  const std::string before = house.project_bytes();
  const ProgramRun run =
      house.log({"weighed", "--mass-kg", "heavy", "--recipe", "thin stonecrap", "--at", "yesterday"});
  EXPECT_EQ(run.exit_code, 1);
  EXPECT_EQ(run.out, "");
  EXPECT_EQ(run.err,
            "error: at is \"yesterday\"; that is no date and no time\n"
            "  hint: write a day (2026-07-03) or a day and a time (2026-07-03T08:15)\n"
            "error: mass_kg is \"heavy\"; it must be a number\n"
            "  hint: weight on the scale, in kg; a decimal point, no unit behind it\n");
  const ProgramRun unknown = house.log({"weighed", "--mass-kg", "30", "--recipe", "thin stonecrap", "--json"});
  EXPECT_EQ(unknown.exit_code, 1);
  const nlohmann::json refusal = nlohmann::json::parse(unknown.out);
  EXPECT_EQ(refusal.at("answer"), "log");
  EXPECT_EQ(refusal.at("issues").at(0).at("path"), "recipe");
  EXPECT_EQ(refusal.at("issues").at(0).at("hint"), "did you mean \"thin stonecrop\"?");
  EXPECT_EQ(house.project_bytes(), before);
}

TEST(Project, NamesOfAnEarlierDesignStayGood) {
  const Household house;
  (void)house.folder.write("roof.toml", edited(house.toml, {{"name = \"bedroom\"", "name = \"hall\""}}));
  ASSERT_EQ(house.houseleek({"import", "roof.toml", "--to", "a.houseleek"}).exit_code, 0);
  EXPECT_EQ(house.log({"read_off", "--room", "bedroom", "--temperature-c", "20"}).exit_code, 0);
  EXPECT_EQ(house.log({"read_off", "--room", "hall", "--temperature-c", "20"}).exit_code, 0);
  EXPECT_EQ(house.log({"read_off", "--room", "attic", "--temperature-c", "20"}).exit_code, 1);
}

TEST(Project, CommandsThatWriteSayHowToMakeAProject) {
  const Household house;
  for (const std::string command : {"log", "export"}) {
    const ProgramRun run = house.houseleek({command, "roof.toml"});
    EXPECT_EQ(run.exit_code, 2);
    EXPECT_EQ(run.out, "");
    EXPECT_EQ(run.err, "houseleek: roof.toml is a description; " + command +
                           " wants a project\n  hint: make one, then give its name: houseleek import roof.toml --to "
                           "roof.houseleek\n");
  }
  EXPECT_EQ(house.houseleek({"import", "a.houseleek", "--to", "b.houseleek"}).exit_code, 2);
}

TEST(Project, TablesAreWritten) {
  const Household house;
  (void)house.log({"noted", "--note", "said \"no\", twice", "--at", "2026-07-03T08:15"});
  const ProgramRun run = house.houseleek({"export", "a.houseleek", "--tables", "out/tables"});
  EXPECT_EQ(run.exit_code, 0) << run.err;
  EXPECT_EQ(run.out, "");
  EXPECT_EQ(run.err,
            "out/tables/revisions.csv: 1 row\nout/tables/events.csv: 1 row\nout/tables/results.csv: 0 rows\n"
            "out/tables/readings.csv: 0 rows\n");
  const std::string events = file_text(house.folder.path() + "/out/tables/events.csv");
  EXPECT_NE(events.find(",noted,2026-07-03T08:15+02:00,yes,Europe/Rome,"), std::string::npos) << events;
  EXPECT_NE(events.find(",\"said \"\"no\"\", twice\","), std::string::npos) << events;
}

TEST(Project, ReadingsOfALoggerComeInAndOut) {
  const Household house;
  (void)house.folder.write("july.csv",
                           "time,roof (\xC2\xB0"
                           "F),battery (V)\n2026-07-12T23:40,77.0,3\n2026-07-12T23:50,50.0,3\n");
  const ProgramRun asked = house.houseleek({"import", "july.csv", "--to", "a.houseleek", "--logger", "south"});
  EXPECT_EQ(asked.exit_code, 1);
  EXPECT_EQ(asked.err,
            "july.csv:2:1: error: the file does not say whether the logger's clock was put forward in summer\n"
            "    2026-07-12T23:40,77.0,3\n    ^\n"
            "  hint: say it with --clock standard (never put forward), daylight_saving or utc\n");
  const ProgramRun unnamed = house.houseleek({"import", "july.csv", "--to", "a.houseleek"});
  EXPECT_EQ(unnamed.exit_code, 1);
  EXPECT_NE(unnamed.err.find("houseleek: if this is a logger's file, say so: --logger and its name\n"),
            std::string::npos)
      << unnamed.err;
  EXPECT_EQ(house.houseleek({"import", "july.csv", "--to", "a.houseleek", "--clock", "utc"}).exit_code, 2);
  const std::vector<std::string> said = {"import",   "july.csv", "--to",    "a.houseleek",
                                         "--logger", "south",    "--clock", "daylight_saving"};
  const ProgramRun run = house.houseleek(said);
  EXPECT_EQ(run.exit_code, 0) << run.err;
  EXPECT_EQ(run.out, "a.houseleek: 2 readings from 2 rows; 0 were there already, 0 fields have no value\n");
  EXPECT_NE(run.err.find("  column 3: left out (battery (V))\n"), std::string::npos) << run.err;
  EXPECT_EQ(house.houseleek(said).out,
            "a.houseleek: 0 readings from 2 rows; 2 were there already, 0 fields have no value\n");
  EXPECT_EQ(house.houseleek({"export", "a.houseleek", "--tables", "out"}).exit_code, 0);
  EXPECT_EQ(file_text(house.folder.path() + "/out/readings.csv"),
            "sensor,quantity,at,value\nsouth,temperature_c,2026-07-12T21:40Z,25\n"
            "south,temperature_c,2026-07-12T21:50Z,10\n");
  const std::string before = house.project_bytes();
  std::string rows = "time,roof (degC)\n2026-07-14T23:40,25.0\n2026-07-14T23:50\n2026-07-14T23:55,warm\n";
  for (int hour = 0; hour < 20; ++hour) rows += "2026-07-15T" + std::to_string(100 + hour).substr(1) + ":00,24.5\n";
  (void)house.folder.write("july.csv", rows);
  const ProgramRun broken = house.houseleek(said);
  EXPECT_EQ(broken.exit_code, 1);
  EXPECT_NE(broken.err.find("july.csv:3:1: error: this row has 1 fields; the others have 2\n"), std::string::npos)
      << broken.err;
  EXPECT_NE(broken.err.find("july.csv:4:18: error: south is 'warm'; it must be a number\n"), std::string::npos)
      << broken.err;
  EXPECT_EQ(house.project_bytes(), before);
}

TEST(Project, FilesThatFailAreThreeAndStay) {
  const Household house;
  const std::string whole = house.project_bytes();
  std::string newer = whole;
  newer[63] = 9;  // user_version, the last of its four bytes
  (void)house.folder.write("newer.houseleek", newer);
  std::string turned = whole;
  turned[whole.find("thin stonecrop")] = 'T';
  (void)house.folder.write("turned.houseleek", turned);
  (void)house.folder.write("text.houseleek", "not a project\n");
  struct Case {
    std::string file;
    std::string sentence;
  };
  for (const Case& one :
       std::vector<Case>{{"newer.houseleek", "the project has format 9; this version of Houseleek reads up to 1"},
                         {"turned.houseleek", "the file is damaged: revision 1 is not as it was written"},
                         {"text.houseleek", "this is no project of Houseleek"}}) {
    const std::string before = file_text(house.folder.path() + "/" + one.file);
    for (const std::vector<std::string>& arguments :
         {std::vector<std::string>{"log", one.file, "noted", "--note", "a"}, {"export", one.file}}) {
      const ProgramRun run = house.houseleek(arguments);
      EXPECT_EQ(run.exit_code, 3) << one.file;
      EXPECT_EQ(run.out, "");
      EXPECT_EQ(run.err.rfind("houseleek: " + one.file + ": " + one.sentence + "\n  hint: ", 0), 0U) << run.err;
    }
    EXPECT_EQ(file_text(house.folder.path() + "/" + one.file), before);
  }
  const ProgramRun missing = house.houseleek({"log", "none.houseleek"});
  EXPECT_EQ(missing.exit_code, 3);
  EXPECT_EQ(missing.err, "houseleek: cannot open none.houseleek: No such file or directory\n");
}

TEST(Project, AReadOnlyProjectIsReadAndNotWritten) {
  const Household house;
  const SmallDisk disk(house.folder.path() + "/disk", "1m");
  const std::string path = house.folder.path() + "/disk/a.houseleek";
  std::filesystem::copy_file(house.folder.path() + "/a.houseleek", path);
  if (geteuid() == 0) {
    if (!disk.make_read_only()) GTEST_SKIP() << "root may write everywhere, and no disk can be mounted here";
  } else {
    chmod(path.c_str(), 0400);
  }
  const ProgramRun run = house.houseleek({"log", "disk/a.houseleek", "noted", "--note", "a"});
  EXPECT_EQ(run.exit_code, 3);
  EXPECT_EQ(run.err,
            "houseleek: disk/a.houseleek: the file is read-only; nothing was written\n  hint: copy it to a folder "
            "where you may write, or ask whoever owns it\n");
  EXPECT_EQ(house.houseleek({"export", "disk/a.houseleek"}).out, house.toml);
  EXPECT_EQ(house.houseleek({"log", "disk/a.houseleek"}).out, "0 events\n");
  EXPECT_EQ(file_text(path), house.project_bytes());
}

TEST(Project, AFullDiskKeepsEveryAcknowledgedEvent) {
  const Household house;
  const SmallDisk disk(house.folder.path() + "/disk", "128k");
  if (!disk.is_mounted()) GTEST_SKIP() << "this test mounts a small disk, which wants the rights of root";
  std::filesystem::copy_file(house.folder.path() + "/a.houseleek", house.folder.path() + "/disk/a.houseleek");
  std::size_t n_noted = 0;
  ProgramRun run;
  while (n_noted < 100) {
    run = house.houseleek({"log", "disk/a.houseleek", "noted", "--note", std::string(3500, 'n')});
    if (run.exit_code != 0) break;
    ++n_noted;
  }
  EXPECT_EQ(run.exit_code, 3);
  EXPECT_EQ(run.err,
            "houseleek: disk/a.houseleek: the disk is full; nothing was written\n  hint: make room and do it once "
            "more; everything noted before is still there\n");
  EXPECT_GT(n_noted, 2U);
  const ProgramRun listed = house.houseleek({"log", "disk/a.houseleek", "--json"});
  EXPECT_EQ(nlohmann::json::parse(listed.out).at("n_events"), n_noted);
  const ProgramRun made = house.houseleek({"import", "roof.toml", "--to", "disk/new.houseleek"});
  EXPECT_EQ(made.exit_code, 3);
  EXPECT_FALSE(std::filesystem::exists(house.folder.path() + "/disk/new.houseleek"));
  EXPECT_FALSE(std::filesystem::exists(house.folder.path() + "/disk/new.houseleek.part"));
}

}  // namespace
}  // namespace houseleek::tests
