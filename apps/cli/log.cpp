// houseleek log: an event into the logbook of a project, or the events that are in it.
#include "log.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "files.hpp"
#include "inputs.hpp"
#include "logbook/event_fields.hpp"
#include "project_file.hpp"
#include "report/json_parts.hpp"
#include "report/logbook_text.hpp"
#include "studies/logbook.hpp"

namespace houseleek::cli {
namespace {

/// water_l is --water-l on the command line.
std::string option_of(std::string_view key) {
  std::string option = "--" + std::string(key);
  std::replace(option.begin(), option.end(), '_', '-');
  return option;
}

std::string kinds_text() {
  std::string text = "Kinds of events, with what each wants (one of several: |) and may have besides:\n";
  for (const logbook::KindRule& rule : logbook::kind_rules()) {
    text += fmt::format("  {:<13} {}\n", rule.word, rule.meaning);
    if (!rule.wants.empty()) text += fmt::format("  {:<13}   wants {}\n", "", rule.wants);
    if (!rule.may_have.empty()) text += fmt::format("  {:<13}   may have {}\n", "", rule.may_have);
  }
  return text;
}

}  // namespace

struct LogCommand::Options {
  CLI::App* command = nullptr;
  std::string file;
  std::string kind;
  std::map<std::string, std::string> fields;  // by key; empty and not given are told apart by their options
  std::vector<std::pair<std::string, CLI::Option*>> field_options;
  std::optional<std::int64_t> corrects;
  std::string since;
  bool is_listing_all = false;
  bool is_json = false;

  void add_field(std::string_view key, const std::string& meaning) {
    const std::string name(key);
    CLI::Option* option = command->add_option(option_of(key), fields[name], meaning)->type_name("");
    field_options.emplace_back(name, option);
  }

  [[nodiscard]] std::vector<std::pair<std::string, std::string>> given_fields() const {
    std::vector<std::pair<std::string, std::string>> given;
    for (const auto& [key, option] : field_options) {
      if (option->count() > 0) given.emplace_back(key, fields.at(key));
    }
    return given;
  }

  [[nodiscard]] ExitCode answer(const Result<std::vector<logbook::EventRecord>>& records,
                                std::optional<std::int64_t> added) const {
    if (!records) {
      return refuse_input("log", records.error(), "", is_json);
    }
    if (is_json) {
      write_answer(report::text_from(report::json_of_log(file, added, records.value())));
    } else {
      write_answer(added ? report::line_from(records.value().front()) : report::text_from(records.value()));
    }
    return ExitCode::done;
  }
};

LogCommand::LogCommand(CLI::App& app) : options_(std::make_unique<Options>()) {
  Options& options = *options_;
  options.command = app.add_subcommand("log", "Note an event in the logbook of a project, or list what is in it");
  options.command->add_option("FILE", options.file, "the project (my-roof.houseleek)")->required();
  options.command->add_option("KIND", options.kind, "what happened; left away: list the events");
  options.add_field("at", "when: 2026-07-03, or 2026-07-03T08:15 by the clocks of the place; left away: now");
  for (const logbook::TextField& field : logbook::text_fields()) {
    options.add_field(field.key,
                      std::string(field.meaning) + (field.choices.empty() ? "" : fmt::format(" ({})", field.choices)));
  }
  for (const logbook::NumberField& field : logbook::number_fields()) {
    options.add_field(field.key,
                      std::string(field.meaning) + (field.unit.empty() ? "" : fmt::format(", {}", field.unit)));
  }
  for (const logbook::DayField& field : logbook::day_fields()) {
    options.add_field(field.key, std::string(field.meaning));
  }
  options.command
      ->add_option("--corrects", options.corrects,
                   "the number of the event whose place this one takes; what is not said anew stays")
      ->type_name("");
  options.command->add_option("--since", options.since, "list from this day or moment on")->type_name("");
  options.command->add_flag("--all", options.is_listing_all, "list what was corrected or withdrawn as well");
  options.command->add_flag("--json", options.is_json, "one JSON document on stdout");
  options.command->footer(kinds_text() +
                          "\nWithout a kind, --module and the other names choose what is listed.\n"
                          "Example: houseleek log my-roof.houseleek watered --module A1 --water-l 6");
}

LogCommand::~LogCommand() = default;

bool LogCommand::is_chosen() const { return options_->command->parsed(); }

ExitCode LogCommand::run() const {
  const Options& options = *options_;
  if (is_refused_description("log", options.file)) return ExitCode::usage;
  if (options.kind.empty() && !options.corrects) {
    const auto is_text_field = [](const auto& given) {
      const auto fields = logbook::text_fields();
      return std::any_of(fields.begin(), fields.end(),
                         [&given](const logbook::TextField& field) { return field.key == given.first; });
    };
    const std::vector<std::pair<std::string, std::string>> given = options.given_fields();
    const auto other = std::find_if_not(given.begin(), given.end(), is_text_field);
    if (other != given.end()) {
      write_message(
          fmt::format("houseleek: {} wants a kind of event\nTry: houseleek log --help\n", option_of(other->first)));
      return ExitCode::usage;
    }
    const store::Project project = open_project_file(options.file, store::Access::read);
    return options.answer(studies::list_events(project, {"", options.since, given, options.is_listing_all}),
                          std::nullopt);
  }
  if (!options.since.empty() || options.is_listing_all) {
    write_message("houseleek: --since and --all list events; leave the kind away\nTry: houseleek log --help\n");
    return ExitCode::usage;
  }
  const store::Project project = open_project_file(options.file, store::Access::write);
  const Result<logbook::EventRecord> noted =
      studies::log_event(project, {{options.kind, options.given_fields()}, options.corrects, now_utc_s()});
  if (!noted) return options.answer(Unexpected{noted.error()}, std::nullopt);
  return options.answer(std::vector{noted.value()}, noted.value().number);
}

}  // namespace houseleek::cli
