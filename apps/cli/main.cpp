// The command line: arguments and files in, documents out, exit codes.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <new>
#include <string>

#include "completion.hpp"
#include "embedded.hpp"
#include "exit_code.hpp"
#include "export.hpp"
#include "files.hpp"
#include "import.hpp"
#include "inputs.hpp"
#include "log.hpp"
#include "new.hpp"
#include "open.hpp"
#include "order.hpp"
#include "plants.hpp"
#include "report/json_parts.hpp"
#include "simulation/run.hpp"
#include "store/database.hpp"
#include "studies/check.hpp"
#include "study.hpp"
#include "trial.hpp"
#include "upkeep.hpp"
#include "water.hpp"
#include "weather.hpp"
#include "week.hpp"

namespace houseleek::cli {
namespace {

// Beyond them a range moves no more, and days go by.
constexpr int most_years = 1000;
constexpr int most_draws = 100'000;

struct Arguments {
  std::string file;
  bool is_json = false;
};

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

ExitCode run_completion(const std::string& shell) {
  if (shell != "bash") {
    write_message(fmt::format("houseleek: there is no completion for \"{}\", only for bash\n", shell));
    return ExitCode::usage;
  }
  write_answer(bash_completion);
  return ExitCode::done;
}

/// Help of the innermost command that was named.
std::string help_of_chosen(const CLI::App& app) {
  const CLI::App* chosen = &app;
  std::string words;
  while (!chosen->get_subcommands().empty()) {
    words += (words.empty() ? "" : " ") + chosen->get_name();
    chosen = chosen->get_subcommands().front();
  }
  return words.empty() ? app.help() : chosen->help(words);
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
  StudyArguments study_arguments;
  std::string csv_path;
  std::string shell;
  const auto add_command = [&](const std::string& name, const std::string& words, const std::string& example) {
    CLI::App* command = app.add_subcommand(name, words);
    command
        ->add_option("FILE", arguments.file,
                     "the description of the roof (roof.toml), or a project (my-roof.houseleek)")
        ->required();
    command->add_flag("--json", arguments.is_json, "one JSON document on stdout");
    command->footer("Example: " + example);
    return command;
  };
  const CLI::App* check =
      add_command("check", "Is the description complete and consistent, what is assumed, which cautions apply",
                  "houseleek check my-roof/roof.toml");
  CLI::App* study = add_command(
      "study", "The answer: comfort, water, weight and money, bare against planted against the plain rivals",
      "houseleek study my-roof/roof.toml --report my-roof/report.html");
  study
      ->add_option("--report", study_arguments.report_path,
                   "also write a page with charts, for any browser and for paper")
      ->type_name("FILE");
  study
      ->add_option("--engineer", study_arguments.engineer_path,
                   "also write a page to hand to a structural engineer: loads, plan, questions, blanks to sign")
      ->type_name("FILE");
  study
      ->add_option("--roofer", study_arguments.roofer_path,
                   "also write a page to hand to a roofer: what presses, outlets, what to look at, blanks to sign")
      ->type_name("FILE");
  study
      ->add_option(
          "--years", study_arguments.n_years,
          fmt::format("years of weather behind the ranges, and every assumption at both ends: {} with --report, "
                      "else 1, which says no more than one year can",
                      studies::usual_years))
      ->check(CLI::Range(1, most_years));
  study->add_option("--draws", study_arguments.n_draws, "draws of prices and lives behind the ranges of money")
      ->check(CLI::Range(studies::usual_draws, most_draws));
  study->add_option("--on", study_arguments.on, "of a project: with its logbook as of this day; left away: today")
      ->type_name("DAY");
  study->add_flag("--keep", study_arguments.keeps_answer, "keep the answer in the project");
  CLI::App* weather =
      add_command("weather", "The year of weather in use: its source, gaps, months, hottest and coldest days",
                  "houseleek weather my-roof/roof.toml --csv hours.csv");
  weather->add_option("--csv", csv_path, "also write the hours to a file")->type_name("FILE");
  OrderArguments order_arguments;
  CLI::App* order = add_command("order", "What to build next: which squares, in which order, one reason each",
                                "houseleek order my-roof/roof.toml --budget 60 --seasons 2 --pin C5 --ban B4");
  order->add_option("--budget", order_arguments.budget, "money for each season; what is left serves the next one")
      ->check(CLI::Range(0.0, 1e9))
      ->type_name("MONEY")
      ->required();
  order->add_option("--seasons", order_arguments.n_seasons, "how many times that money comes")
      ->check(CLI::Range(1, 12))
      ->type_name("");
  order->add_option("--most", order_arguments.n_most, "no more steps than this")
      ->check(CLI::Range(1, 1000))
      ->type_name("");
  order->add_option("--recipe", order_arguments.recipe, "the recipe to lay; else the one that is laid most")
      ->type_name("NAME");
  order->add_option("--pin", order_arguments.pins, "a module must lie on this square (B4), or at x,y in metres")
      ->type_name("PLACE");
  order->add_option("--ban", order_arguments.bans, "no module may lie there")->type_name("PLACE");
  const LogCommand log(app);
  const PlantsCommand plants(app);
  const TrialCommand trial(app);
  const UpkeepCommand upkeep(app);
  const WaterCommand water(app);
  const WeekCommand week(app);
  ImportArguments import_arguments;
  CLI::App* import = app.add_subcommand(
      "import",
      "A description into a project, as the newest revision of its design; a table of events; or a logger's readings");
  import
      ->add_option("FILE", import_arguments.file,
                   "the description of the roof (roof.toml), a table of events, or a logger's file")
      ->required();
  import->add_option("--to", import_arguments.project_path, "the project; made where there is none")
      ->type_name("PROJECT")
      ->required();
  CLI::Option* note = import->add_option("--note", import_arguments.note, "what is new in it")->type_name("");
  CLI::Option* logger = import
                            ->add_option("--logger", import_arguments.logger,
                                         "the file holds this logger's readings; its name, always the same")
                            ->type_name("NAME")
                            ->excludes(note);
  import
      ->add_flag("--events", import_arguments.is_events,
                 "the file is a table of events (CSV), as export --tables writes it: kind,at,module,...")
      ->excludes(note)
      ->excludes(logger);
  import->add_option("--clock", import_arguments.clock, "of the logger, where its file does not say it")
      ->check(CLI::IsMember({"standard", "daylight_saving", "utc"}))
      ->type_name("")
      ->needs(logger);
  import->add_option("--date-order", import_arguments.date_order, "of the logger's dates, where both can be")
      ->check(CLI::IsMember({"day_first", "month_first"}))
      ->type_name("")
      ->needs(logger);
  import->add_option("--unit", import_arguments.unit, "of the logger's columns that do not say theirs")
      ->check(CLI::IsMember({"degC", "degF"}))
      ->type_name("")
      ->needs(logger);
  import->add_flag("--json", import_arguments.is_json, "one JSON document on stdout");
  import->footer(
      "Example: houseleek import my-roof/roof.toml --to my-roof/my-roof.houseleek\n"
      "         houseleek import events.csv --to my-roof.houseleek --events\n"
      "         houseleek import july.csv --to my-roof.houseleek --logger south --clock standard");
  ExportArguments export_arguments;
  CLI::App* exported =
      app.add_subcommand("export", "The design of a project on stdout, byte for byte; its tables as CSV");
  exported->add_option("FILE", export_arguments.file, "the project (my-roof.houseleek)")->required();
  exported->add_option("--revision", export_arguments.revision, "an earlier design, by its number")->type_name("");
  exported
      ->add_option("--tables", export_arguments.tables_path,
                   "write revisions, events, results and readings there instead")
      ->type_name("FOLDER");
  exported->add_flag("--json", export_arguments.is_json, "one JSON document on stdout");
  exported->footer("Example: houseleek export my-roof.houseleek > roof.toml");
  OpenArguments open_arguments;
  CLI::App* open = app.add_subcommand("open", "The page, on this machine: for everything, without a terminal");
  open->add_option("FILE", open_arguments.file, "a project or a description; one that is not there yet is begun")
      ->required();
  open->add_option("--port", open_arguments.port, "on this port; left away: one that belongs to the file")
      ->check(CLI::Range(1024, 65535))
      ->type_name("N");
  open->add_flag("!--no-browser", open_arguments.opens_browser, "print the address only");
  open->footer("Example: houseleek open my-roof.houseleek");
  const NewCommand begin(app);
  CLI::App* completion = app.add_subcommand("completion", "Completion of commands for a shell");
  completion->add_option("SHELL", shell, "bash")->required();
  completion->footer("Example: source <(houseleek completion bash)");
  try {
    app.parse(argc, argv);
  } catch (const CLI::CallForHelp&) {
    write_answer(help_of_chosen(app));
    return ExitCode::done;
  } catch (const CLI::CallForVersion& version) {
    write_answer(std::string(version.what()) + "\n");
    return ExitCode::done;
  } catch (const CLI::ParseError& error) {
    write_message(fmt::format("houseleek: {}\nTry: houseleek --help\n", error.what()));
    return ExitCode::usage;
  }
  if (check->parsed()) return run_check(arguments);
  if (study->parsed()) {
    study_arguments.file = arguments.file;
    study_arguments.is_json = arguments.is_json;
    return run_study(study_arguments);
  }
  if (weather->parsed()) return run_weather({arguments.file, csv_path, arguments.is_json});
  if (order->parsed()) {
    order_arguments.file = arguments.file;
    order_arguments.is_json = arguments.is_json;
    return run_order(order_arguments);
  }
  if (log.is_chosen()) return log.run();
  if (plants.is_chosen()) return plants.run();
  if (trial.is_chosen()) return trial.run();
  if (upkeep.is_chosen()) return upkeep.run();
  if (water.is_chosen()) return water.run();
  if (week.is_chosen()) return week.run();
  if (open->parsed()) return run_open(open_arguments);
  if (begin.is_chosen()) return begin.run();
  if (import->parsed()) return run_import(import_arguments);
  if (exported->parsed()) return run_export(export_arguments);
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
  } catch (const store::StoreError& failure) {
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
