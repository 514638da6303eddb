// houseleek new: a first description from ten plain questions, asked on the terminal or answered by a file.
#include "new.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <filesystem>
#include <iostream>
#include <optional>
#include <string>

#include "files.hpp"
#include "inputs.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "studies/first_design.hpp"
#include "studies/keep_design.hpp"

namespace houseleek::cli {
namespace {

using report::Json;

constexpr std::size_t most_answer_bytes = 100'000;  // ten answers

/// What was typed, as the field's kind has it; nothing where it is no number.
std::optional<Json> typed_value(const Json& field, const std::string& words) {
  const std::string kind = field.at("kind").get<std::string>();
  if (kind == "flag") return Json(words == "yes" || words == "y" || words == "true");
  if (kind != "number" && kind != "whole") return Json(words);
  const Json number = Json::parse(words, nullptr, false);
  if (!number.is_number()) return std::nullopt;
  return number;
}

/// Asks one field until there is an answer. Ends the asking at the end of the input.
std::optional<Json> ask(const Json& field) {
  std::string line = "  " + field.at("label").get<std::string>();
  if (const std::string unit = field.at("unit").get<std::string>(); !unit.empty()) line += ", " + unit;
  for (const Json& choice : field.at("choices")) {
    line += fmt::format("\n    {} = {}", choice.at("word").get<std::string>(), choice.at("meaning").get<std::string>());
  }
  if (field.at("kind") == "flag") line += " (yes, no)";
  const std::string usual = field.at("usual").get<std::string>();
  if (!usual.empty()) line += fmt::format(" [{}]", usual == "false" ? "no" : usual);
  while (true) {
    write_message(line + ": ");
    std::string words;
    if (!std::getline(std::cin, words)) return std::nullopt;
    if (words.empty()) words = usual;
    if (words.empty()) {
      if (field.at("is_optional").get<bool>()) return Json(nullptr);
      continue;
    }
    if (std::optional<Json> value = typed_value(field, words)) return value;
    write_message("  a number is wanted\n");
  }
}

}  // namespace

struct NewCommand::Options {
  CLI::App* command = nullptr;
  std::string file;
  std::string from;
  std::string answers;
  bool is_json = false;

  /// Ten questions on the terminal. Errors: nothing where the input ends before they are answered.
  [[nodiscard]] static std::optional<Json> ask_all() {
    Json given = Json::object();
    int number = 0;
    for (const Json& question : studies::first_questions().at("questions")) {
      write_message(fmt::format("\n{}. {}\n", ++number, question.at("title").get<std::string>()));
      if (const std::string help = question.at("help").get<std::string>(); !help.empty()) {
        write_message(fmt::format("   {}\n", help));
      }
      for (const Json& field : question.at("fields")) {
        const std::optional<Json> value = ask(field);
        if (!value) return std::nullopt;
        given[field.at("key").get<std::string>()] = *value;
      }
    }
    return given;
  }

  [[nodiscard]] ExitCode keep(const std::string& text) const {
    if (std::filesystem::path(file).extension() == ".toml") {
      NewFile(file).finish(text);
    } else {
      make_project_file(file, [&](const store::Project& project) {
        (void)studies::keep_design(project, {file, text}, "the first description", now_utc_s());
      });
    }
    if (is_json) {
      write_answer(report::text_from({{"answer", "new"}, {"is_valid", true}, {"file", file}}));
    } else {
      write_answer(fmt::format("{}\nNext: houseleek open {}\n", file, file));
    }
    return ExitCode::done;
  }
};

NewCommand::NewCommand(CLI::App& app) : options_(std::make_unique<Options>()) {
  Options& options = *options_;
  options.command = app.add_subcommand("new", "A first description of your roof from ten plain questions");
  options.command
      ->add_option("FILE", options.file, "what is made: a project (my-roof.houseleek), or a description (roof.toml)")
      ->required();
  options.command->add_option("--from", options.from, "begin with this description or project instead of questions")
      ->type_name("FILE");
  options.command->add_option("--answers", options.answers, "the answers as a JSON file; - reads them from stdin")
      ->type_name("FILE");
  options.command->add_flag("--json", options.is_json, "one JSON document on stdout");
  options.command->footer("Example: houseleek new my-roof.houseleek");
}

NewCommand::~NewCommand() = default;

bool NewCommand::is_chosen() const { return options_->command->parsed(); }

ExitCode NewCommand::run() const {
  const Options& options = *options_;
  if (std::filesystem::exists(options.file)) {
    write_message(fmt::format("houseleek: {} is there already; nothing was changed\n", options.file));
    return ExitCode::usage;
  }
  const catalogue::Catalogue catalogue = read_embedded_catalogue();
  if (!options.from.empty()) {
    const studies::NamedText file = read_design_file(options.from);
    const Issues issues = studies::issues_of_design(file, catalogue);
    if (!issues.empty()) return refuse_input("new", issues, "", options.is_json);
    return options.keep(file.text);
  }
  std::optional<Json> given;
  if (options.answers.empty()) {
    given = Options::ask_all();
    if (!given) {
      write_message("\nhouseleek: the answers ended early; nothing was written\n");
      return ExitCode::usage;
    }
  } else {
    const std::string path = options.answers == "-" ? "/dev/stdin" : options.answers;
    given = Json::parse(read_file(path, most_answer_bytes), nullptr, false);
    if (!given->is_object()) {
      write_message(fmt::format("houseleek: {} is no JSON document with the answers\n", options.answers));
      return ExitCode::usage;
    }
  }
  const Result<std::string> text = studies::first_design(*given, catalogue);
  if (!text) return refuse_input("new", text.error(), "", options.is_json);
  return options.keep(text.value());
}

}  // namespace houseleek::cli
