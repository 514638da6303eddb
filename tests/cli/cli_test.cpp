// The command line: exit codes, what goes to stdout and what to stderr, files that fail, Ctrl-C.
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

#include "cli/run_program.hpp"
#include "support/catalogue_files.hpp"
#include "support/small_design.hpp"

namespace houseleek::tests {
namespace {

const std::string tree = HOUSELEEK_SOURCE_DIR;

std::string file_text(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

TEST(Cli, HelpAndVersionGoToStdout) {
  const ProgramRun help = run_program({"--help"}, tree);
  EXPECT_EQ(help.exit_code, 0);
  EXPECT_NE(help.out.find("Example: houseleek study my-roof/roof.toml"), std::string::npos);
  EXPECT_EQ(help.err, "");
  const ProgramRun version = run_program({"--version"}, tree);
  EXPECT_EQ(version.exit_code, 0);
  EXPECT_EQ(version.out.rfind("houseleek ", 0), 0U);
  for (const char* command : {"check", "study", "weather", "order", "log", "import", "export", "completion"}) {
    const ProgramRun own = run_program({command, "--help"}, tree);
    EXPECT_EQ(own.exit_code, 0) << command;
    EXPECT_NE(own.out.find("Example: "), std::string::npos) << command;
    EXPECT_NE(own.out.find(std::string("Usage: houseleek ") + command), std::string::npos) << own.out;
  }
}

TEST(Cli, AReportThatCannotBeWrittenIsSaidBeforeTheWork) {
  const TemporaryFolder folder;
  const std::string design = folder.write("roof.toml", small_design_text());
  const ProgramRun nowhere = run_program({"study", design, "--report", folder.path() + "/none/report.html"}, tree);
  EXPECT_EQ(nowhere.exit_code, 3);
  EXPECT_EQ(nowhere.out, "");
  EXPECT_NE(nowhere.err.find("cannot write " + folder.path() + "/none/report.html"), std::string::npos) << nowhere.err;
  const ProgramRun onto_folder = run_program({"study", design, "--report", folder.path()}, tree);
  EXPECT_EQ(onto_folder.exit_code, 3);
  EXPECT_NE(onto_folder.err.find("is no plain file"), std::string::npos) << onto_folder.err;
}

TEST(Cli, AReportIsNeverWrittenOverTheDescription) {
  const TemporaryFolder folder;
  const std::string design = folder.write("roof.toml", small_design_text());
  const ProgramRun run =
      run_program({"study", design, "--report",
                   folder.path() + "/../" + std::filesystem::path(folder.path()).filename().string() + "/roof.toml"},
                  tree);
  EXPECT_EQ(run.exit_code, 2);
  EXPECT_NE(run.err.find("over the description"), std::string::npos) << run.err;
  EXPECT_EQ(file_text(design), small_design_text());
}

TEST(Cli, ADescriptionWithIssuesLeavesNoReport) {
  const TemporaryFolder folder;
  const std::string design = folder.write("roof.toml", "format = 1\n");
  EXPECT_EQ(run_program({"study", design, "--report", folder.path() + "/report.html"}, tree).exit_code, 1);
  EXPECT_FALSE(std::filesystem::exists(folder.path() + "/report.html"));
}

TEST(Cli, VersionIsThatOfTheProject) {
  const std::string cmake = source_file_text("CMakeLists.txt");
  const std::size_t at = cmake.find("VERSION ", cmake.find("project(houseleek")) + 8;
  EXPECT_EQ(run_program({"--version"}, tree).out, "houseleek " + cmake.substr(at, cmake.find(' ', at) - at) + "\n");
}

TEST(Cli, WrongUseIsTwo) {
  for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{{},
                                                                                         {"water"},
                                                                                         {"check"},
                                                                                         {"study"},
                                                                                         {"study", "a.toml", "b.toml"},
                                                                                         {"study", "a.toml", "--fast"},
                                                                                         {"--flag"},
                                                                                         {"completion", "csh"}}) {
    const ProgramRun run = run_program(arguments, tree);
    EXPECT_EQ(run.exit_code, 2) << (arguments.empty() ? "" : arguments.front());
    EXPECT_EQ(run.out, "");
    EXPECT_EQ(run.err.rfind("houseleek: ", 0), 0U) << run.err;
  }
}

TEST(Cli, FilesThatFailAreThree) {
  const TemporaryFolder folder;
  struct Case {
    std::string path;
    std::string sentence;
  };
  std::vector<Case> cases = {
      {folder.path() + "/none.toml", "cannot open " + folder.path() + "/none.toml: No such file"},
      {folder.path(), folder.path() + " is a directory"},
      {"", "cannot open "}};
  const std::string locked = folder.write("locked.toml", "format = 1");
  if (geteuid() != 0) {
    chmod(locked.c_str(), 0);
    cases.push_back({locked, "cannot open " + locked + ": Permission denied"});
  }
  for (const Case& one : cases) {
    for (const char* command : {"check", "study"}) {
      for (const bool is_json : {false, true}) {
        std::vector<std::string> arguments = {command, one.path};
        if (is_json) arguments.emplace_back("--json");
        const ProgramRun run = run_program(arguments, tree);
        EXPECT_EQ(run.exit_code, 3) << command << " " << one.path;
        EXPECT_EQ(run.out, "") << command << " " << one.path;
        EXPECT_EQ(run.err.rfind("houseleek: " + one.sentence, 0), 0U) << run.err;
      }
    }
  }
}

TEST(Cli, AnAnswerThatCannotBeWrittenIsThree) {
  const ProgramRun run = run_program_into({"check", "examples/01-terrace-house/roof.toml"}, "/dev/full");
  EXPECT_EQ(run.exit_code, 3);
  EXPECT_EQ(run.err, "houseleek: cannot write the answer: No space left on device\n");
}

TEST(Cli, CheckOfTheTerraceHouse) {
  const ProgramRun text = run_program({"check", "examples/01-terrace-house/roof.toml"}, tree);
  EXPECT_EQ(text.exit_code, 0);
  EXPECT_EQ(text.err, "");
  const ProgramRun json = run_program({"check", "examples/01-terrace-house/roof.toml", "--json"}, tree);
  EXPECT_EQ(json.exit_code, 0);
  EXPECT_EQ(nlohmann::json::parse(json.out).at("is_valid"), true);
}

TEST(Cli, IssuesAreOneAndHavePlaces) {
  const TemporaryFolder folder;
  const std::string path = folder.write(
      "broken.toml",
      edited(small_design_text(), {{"thickness_mm = 120", "thickness_mm = -120"}, {"seed = 7", "sed = 7"}}));
  for (const char* command : {"check", "study"}) {
    const ProgramRun text = run_program({command, path}, tree);
    EXPECT_EQ(text.exit_code, 1) << command;
    EXPECT_EQ(text.out, "") << command;
    EXPECT_NE(text.err.find(path + ":12:1: error:"), std::string::npos) << text.err;
    EXPECT_NE(text.err.find(path + ":30:16: error:"), std::string::npos) << text.err;
    const ProgramRun json = run_program({command, path, "--json"}, tree);
    EXPECT_EQ(json.exit_code, 1) << command;
    const nlohmann::json document = nlohmann::json::parse(json.out);
    EXPECT_EQ(document.at("is_valid"), false);
    ASSERT_EQ(document.at("issues").size(), 2U);
    EXPECT_EQ(document.at("issues")[0].at("line"), 12);
  }
}

TEST(Cli, NormalsThatCannotBeHaveTheirPlace) {
  const TemporaryFolder folder;
  // More vapour than air of these temperatures can hold is found only when the year is made.
  const std::string path =
      folder.write("wet.toml", edited(small_design_text(), {{"rain_days = [9, 9, 15",
                                                             "sunshine_h = [740, 200, 200, 200, 200, 200, 200, "
                                                             "200, 200, 200, 200, 200]\nrain_days = [9, 9, 15"}}));
  const ProgramRun run = run_program({"study", path}, tree);
  EXPECT_EQ(run.exit_code, 1);
  EXPECT_NE(run.err.find("wet.toml:18:15: error: sunshine_h[0]"), std::string::npos) << run.err;
}

TEST(Cli, AHugeFileIsRefusedAndNotReadToItsEnd) {
  const ProgramRun run = run_program({"check", "/dev/zero"}, tree);
  EXPECT_EQ(run.exit_code, 1);
  EXPECT_NE(run.err.find("/dev/zero"), std::string::npos);
}

TEST(Cli, AWeatherFileCountsFromTheDesign) {
  const TemporaryFolder folder;
  const std::string text = small_design_text();
  const std::size_t from = text.find("[climate.normals]");
  const std::size_t to = text.find("[roof]");
  std::string with_file = text.substr(0, from) + text.substr(to);
  with_file = edited(with_file, {{"seed = 7", "file = \"year.csv\""}});
  const std::string path = folder.write("roof.toml", with_file);
  const ProgramRun missing = run_program({"study", path}, tree);
  EXPECT_EQ(missing.exit_code, 3);
  EXPECT_NE(missing.err.find("cannot open " + folder.path() + "/year.csv"), std::string::npos) << missing.err;
  (void)folder.write("year.csv", "time,air_temperature_c\n2023-01-01T00:00,5\n");
  const ProgramRun broken = run_program({"study", path, "--json"}, tree);
  EXPECT_EQ(broken.exit_code, 1);
  const nlohmann::json document = nlohmann::json::parse(broken.out);
  EXPECT_EQ(document.at("issues")[0].at("file"), folder.path() + "/year.csv");
}

TEST(Cli, CtrlCEndsAStudyWith130AndAPartThatSaysSo) {
  const ProgramRun text = run_program({"study", "examples/01-terrace-house/roof.toml"}, tree, 1.0);
  EXPECT_EQ(text.exit_code, 130);
  EXPECT_EQ(text.out.rfind("PARTIAL, interrupted", 0), 0U) << text.out;
  EXPECT_EQ(text.err, "houseleek: interrupted\n");
  const ProgramRun json = run_program({"study", "examples/01-terrace-house/roof.toml", "--json"}, tree, 1.0);
  EXPECT_EQ(json.exit_code, 130);
  EXPECT_EQ(json.out, "") << "half a document is none";
}

TEST(Cli, NoColourAndNoProgressWhereNobodyLooks) {
  const ProgramRun run = run_program({"check", "examples/01-terrace-house/roof.toml"}, tree);
  EXPECT_EQ(run.out.find('\x1b'), std::string::npos);
  EXPECT_EQ(run.out.find('\r'), std::string::npos);
}

TEST(Cli, CompletionIsAShellScriptThatBashReads) {
  const TemporaryFolder folder;
  const ProgramRun run = run_program({"completion", "bash"}, tree);
  EXPECT_EQ(run.exit_code, 0);
  const std::string path = folder.write("completion.bash", run.out);
  EXPECT_EQ(std::system(("bash -n '" + path + "'").c_str()), 0);
  const std::string asks = folder.write(
      "ask.bash",
      "source '" + path + "'\nCOMP_WORDS=(houseleek st)\nCOMP_CWORD=1\n_houseleek\n[[ ${COMPREPLY[*]} == study ]]\n");
  EXPECT_EQ(std::system(("bash '" + asks + "'").c_str()), 0);
}

}  // namespace
}  // namespace houseleek::tests
