// The command line: arguments and files in, documents out, exit codes.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <filesystem>
#include <new>
#include <optional>
#include <string>
#include <thread>

#include "base/issue_text.hpp"
#include "completion.hpp"
#include "design/limits.hpp"
#include "embedded.hpp"
#include "exit_code.hpp"
#include "files.hpp"
#include "progress.hpp"
#include "report/json_parts.hpp"
#include "report/study_json.hpp"
#include "report/study_text.hpp"
#include "simulation/run.hpp"
#include "studies/check.hpp"
#include "studies/open_design.hpp"
#include "studies/partial.hpp"
#include "studies/study.hpp"
#include "threads.hpp"

namespace houseleek::cli {
namespace {

// A year of hours with every column and long numbers has 2 MB.
constexpr std::size_t most_weather_bytes = 50'000'000;

struct Arguments {
  std::string file;
  bool is_json = false;
};

catalogue::Catalogue read_embedded_catalogue() {
  Result<catalogue::Catalogue> read = catalogue::read_catalogue(embedded_catalogue());
  if (!read) throw ContractViolation("the catalogue inside the program:\n" + text_from_issues(read.error(), ""));
  return std::move(read).value();
}

studies::NamedText read_design_file(const std::string& path) {
  return {path, read_file(path, design::limits::file.max_bytes)};
}

/// A weather file's path in a design counts from the design file.
std::optional<studies::NamedText> read_weather_file(const design::ValidDesign& design, const std::string& design_path) {
  if (!design->climate.file) return std::nullopt;
  const std::filesystem::path path = std::filesystem::path(design_path).parent_path() / *design->climate.file;
  std::string text = read_file(path.string(), most_weather_bytes);
  if (text.size() > most_weather_bytes) {
    throw WorldFailed(fmt::format("{} is larger than {} bytes", path.string(), most_weather_bytes));
  }
  return studies::NamedText{path.string(), std::move(text)};
}

ExitCode refuse(const Issues& issues, std::string_view text, const Arguments& arguments) {
  if (arguments.is_json) write_answer(report::text_from(report::json_of_refusal("study", issues)));
  write_message(text_from_issues(issues, text));
  return ExitCode::bad_input;
}

ExitCode run_check(const Arguments& arguments) {
  const studies::NamedText file = read_design_file(arguments.file);
  const studies::CheckAnswer answer = studies::check_design(file.text, file.name, read_embedded_catalogue());
  if (arguments.is_json) {
    write_answer(report::text_from(answer.document));
  } else if (answer.is_valid) {
    write_answer(answer.text);
  }
  if (answer.is_valid) return ExitCode::done;
  write_message(answer.text);
  return ExitCode::bad_input;
}

ExitCode run_study(const Arguments& arguments) {
  const InterruptWatch interrupt;
  const studies::NamedText file = read_design_file(arguments.file);
  const catalogue::Catalogue catalogue = read_embedded_catalogue();
  const Result<design::ValidDesign> design = design::read_design(file.text, file.name, catalogue);
  if (!design) return refuse(design.error(), file.text, arguments);
  const std::optional<studies::NamedText> weather_file = read_weather_file(design.value(), arguments.file);
  const Result<climate::WeatherYear> weather = studies::open_weather(design.value(), file, weather_file);
  if (!weather) return refuse(weather.error(), weather_file ? weather_file->text : file.text, arguments);
  studies::StudyOptions options;
  options.engine_version = program_version();
  options.input_hash = studies::input_hash(embedded_catalogue(), file, weather_file);
  ProgressLine progress;
  Context context;
  context.is_cancelled = &interrupt.is_interrupted();
  context.on_progress = [&progress](double done_frac) { progress.show(done_frac); };
  const unsigned n_threads = std::max(1U, std::thread::hardware_concurrency());
  try {
    const report::StudyAnswer answer =
        studies::study(design.value(), catalogue, weather.value(), options, executor_with_threads(n_threads), context);
    write_answer(arguments.is_json ? report::text_from(report::json_from(answer)) : report::text_from(answer));
    return ExitCode::done;
  } catch (const Cancelled&) {
    // What needs no run is done; a document would look whole.
    if (!arguments.is_json) write_answer(studies::text_without_runs(design.value(), catalogue));
    throw;
  }
}

ExitCode run_completion(const std::string& shell) {
  if (shell != "bash") {
    write_message(fmt::format("houseleek: there is no completion for \"{}\", only for bash\n", shell));
    return ExitCode::usage;
  }
  write_answer(bash_completion);
  return ExitCode::done;
}

ExitCode run(int argc, char** argv) {
  CLI::App app{
      "Houseleek: what planted modules on a flat roof do to the rooms below, to water, weight and money,\n"
      "beside the bare roof and the plain rivals.",
      "houseleek"};
  app.set_version_flag("--version", std::string("houseleek ") + std::string(program_version()));
  app.require_subcommand(1);
  app.footer(
      "Exit codes: 0 done, 1 the description has issues, 2 usage, 3 a file failed, 70 our bug, 130 interrupted.\n"
      "Example: houseleek study my-roof/roof.toml");
  Arguments arguments;
  std::string shell;
  const auto add_command = [&](const std::string& name, const std::string& words, const std::string& example) {
    CLI::App* command = app.add_subcommand(name, words);
    command->add_option("FILE", arguments.file, "the description of the roof (roof.toml)")->required();
    command->add_flag("--json", arguments.is_json, "one JSON document on stdout");
    command->footer("Example: " + example);
    return command;
  };
  const CLI::App* check =
      add_command("check", "Is the description complete and consistent, what is assumed, which cautions apply",
                  "houseleek check my-roof/roof.toml");
  const CLI::App* study = add_command(
      "study", "The answer: comfort, water, weight and money, bare against planted against the plain rivals",
      "houseleek study my-roof/roof.toml --json > answer.json");
  CLI::App* completion = app.add_subcommand("completion", "Completion of commands for a shell");
  completion->add_option("SHELL", shell, "bash")->required();
  completion->footer("Example: source <(houseleek completion bash)");
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    const std::vector<CLI::App*> chosen = app.get_subcommands();
    write_answer(chosen.empty() ? app.help() : chosen.front()->help("houseleek"));
    return ExitCode::done;
  } catch (const CLI::CallForVersion& version) {
    write_answer(std::string(version.what()) + "\n");
    return ExitCode::done;
  } catch (const CLI::ParseError& error) {
    write_message(fmt::format("houseleek: {}\nTry: houseleek --help\n", error.what()));
    return ExitCode::usage;
  }
  if (check->parsed()) return run_check(arguments);
  if (study->parsed()) return run_study(arguments);
  return run_completion(shell);
}

/// The one place where failures become sentences and exit codes.
ExitCode run_guarded(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const Cancelled&) {
    write_message("houseleek: interrupted\n");
    return ExitCode::interrupted;
  } catch (const WorldFailed& failure) {
    write_message(fmt::format("houseleek: {}\n", failure.what()));
    return ExitCode::world_failed;
  } catch (const std::filesystem::filesystem_error& failure) {
    write_message(fmt::format("houseleek: {}\n", failure.what()));
    return ExitCode::world_failed;
  } catch (const std::bad_alloc&) {
    write_message("houseleek: not enough memory\n");
    return ExitCode::world_failed;
  } catch (const simulation::NumericalFailure& failure) {
    write_message(fmt::format("houseleek: the solver did not converge: {}\n", failure.what()));
    return ExitCode::own_bug;
  } catch (const std::exception& failure) {
    write_message(fmt::format("houseleek: our own mistake, please report it: {}\n", failure.what()));
    return ExitCode::own_bug;
  }
}

}  // namespace
}  // namespace houseleek::cli

int main(int argc, char** argv) { return static_cast<int>(houseleek::cli::run_guarded(argc, argv)); }
