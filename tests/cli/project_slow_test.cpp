// Projects under a program that is killed, and beside one that does not let go.
#include <gtest/gtest.h>
#include <sqlite3.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <random>

#include "cli/run_program.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {
namespace {

TEST(ProjectSlow, TwentyKillsOfTheProgramLoseNoAcknowledgedEvent) {
  const TemporaryFolder folder;
  const std::string design = folder.write("roof.toml", small_design_text());
  const std::string project = folder.path() + "/a.houseleek";
  ASSERT_EQ(run_program({"import", design, "--to", project}, folder.path()).exit_code, 0);
  std::mt19937_64 random(20261130);
  std::vector<std::string> acknowledged;
  int n_killed = 0;
  int n_with_journal = 0;
  while (n_killed < 20) {
    const std::string note = "note " + std::to_string(acknowledged.size()) + " " + std::to_string(n_killed);
    const double share = static_cast<double>(random() >> 11U) * 0x1p-53;
    const ProgramRun run = run_program_and_kill({"log", project, "noted", "--note", note}, 0.001 + 0.06 * share);
    if (!run.out.empty()) acknowledged.push_back(note);
    if (run.exit_code == 128 + 9) {
      ++n_killed;
    } else {
      ASSERT_EQ(run.exit_code, 0) << run.err;
    }
    n_with_journal += std::filesystem::exists(project + "-journal") ? 1 : 0;
    const ProgramRun listed = run_program({"log", project, "--json"}, folder.path());
    ASSERT_EQ(listed.exit_code, 0) << listed.err;
    std::vector<std::string> notes;
    const nlohmann::json document = nlohmann::json::parse(listed.out);
    for (const nlohmann::json& event : document.at("events")) notes.push_back(event.at("note"));
    for (const std::string& one : acknowledged) {
      EXPECT_NE(std::find(notes.begin(), notes.end(), one), notes.end()) << one;
    }
  }
  std::cout << acknowledged.size() << " events acknowledged, " << n_with_journal
            << " kills in the middle of a change\n";
  EXPECT_GT(n_with_journal, 0) << "no kill fell into a change; this test has shown nothing";
}

TEST(ProjectSlow, AStudyOfAProjectIsKeptWhereWanted) {
  const TemporaryFolder folder;
  (void)folder.write("roof.toml", small_design_text());
  ASSERT_EQ(run_program({"import", "roof.toml", "--to", "a.houseleek"}, folder.path()).exit_code, 0);
  EXPECT_EQ(run_program({"study", "roof.toml", "--keep"}, folder.path()).exit_code, 2);
  const ProgramRun run = run_program({"study", "a.houseleek", "--json", "--keep"}, folder.path());
  ASSERT_EQ(run.exit_code, 0) << run.err;
  const nlohmann::json answer = nlohmann::json::parse(run.out);
  EXPECT_EQ(answer.at("roof").at("modules"), 4);
  EXPECT_NE(run.err.find("Kept in a.houseleek as result 1\n"), std::string::npos) << run.err;
  ASSERT_EQ(run_program({"export", "a.houseleek", "--tables", "out"}, folder.path()).exit_code, 0);
  std::ifstream results(folder.path() + "/out/results.csv");
  std::string row;
  std::getline(results, row);
  std::getline(results, row);
  EXPECT_EQ(row.rfind("1,1,", 0), 0U) << row;
  const std::string made_by = ",study," + answer.at("engine").at("version").get<std::string>() +
                              ",\"{\"\"n_years\"\":1,\"\"n_draws\"\":" + answer.at("engine").at("n_draws").dump() +
                              ",\"\"on\"\":\"\"" + answer.at("logbook").at("on").get<std::string>() + "\"\"}\"," +
                              answer.at("engine").at("seed").dump() + "," +
                              answer.at("engine").at("input_hash").get<std::string>() + ",\"{";
  EXPECT_NE(row.find(made_by), std::string::npos) << row;
}

TEST(ProjectSlow, AProgramThatDoesNotLetGoIsWaitedForAndSaid) {
  const TemporaryFolder folder;
  const std::string design = folder.write("roof.toml", small_design_text());
  ASSERT_EQ(run_program({"import", design, "--to", "a.houseleek"}, folder.path()).exit_code, 0);
  sqlite3* other = nullptr;
  ASSERT_EQ(sqlite3_open((folder.path() + "/a.houseleek").c_str(), &other), SQLITE_OK);
  ASSERT_EQ(sqlite3_exec(other, "BEGIN EXCLUSIVE", nullptr, nullptr, nullptr), SQLITE_OK);
  const ProgramRun run = run_program({"log", "a.houseleek", "noted", "--note", "a"}, folder.path());
  EXPECT_EQ(run.exit_code, 3);
  EXPECT_EQ(run.out, "");
  EXPECT_EQ(run.err,
            "houseleek: a.houseleek: another program is working in it; nothing was written\n  hint: close the other "
            "program, or wait until it is done, and do it once more\n");
  sqlite3_close(other);
  EXPECT_EQ(run_program({"log", "a.houseleek", "noted", "--note", "a"}, folder.path()).exit_code, 0);
}

}  // namespace
}  // namespace houseleek::tests
