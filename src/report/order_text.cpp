// What to build next for a terminal: a step a line, with its reason.
#include "report/order_text.hpp"

#include <fmt/format.h>

#include "report/paragraph.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::size_t widest_title = 24;
constexpr std::size_t label_width = 11;

std::string label_of(std::size_t number, const OrderStep& step) {
  return fmt::format("{:>3}. {:<4}", number, step.square);
}

}  // namespace

std::string text_from(const OrderAnswer& answer) {
  const OrderAbout& about = answer.about;
  const std::string name = answer.design_name.empty() ? "This house" : short_name(answer.design_name, widest_title);
  std::string text =
      paragraph("", 0, fmt::format("CAUTION: {} Keep off edges; wet modules are heavy.", about.load_statement));
  text += paragraph("", 0, fmt::format("{}: what to build next, \"{}\", {}", name, about.recipe, about.placed));
  int season = 0;
  for (std::size_t i = 0; i < answer.steps.size(); ++i) {
    const OrderStep& step = answer.steps[i];
    if (step.season != season && about.budgets.size() > 1) {
      text += fmt::format("Season {}, {} {} more to spend\n", step.season,
                          short_number(about.budgets[static_cast<std::size_t>(step.season - 1)]), about.currency);
    }
    season = step.season;
    text += paragraph(label_of(i + 1, step), label_width,
                      fmt::format("{} {}; {}", short_number(step.cost), about.currency, step.reason));
  }
  text += paragraph("", 0, about.statement);
  for (const std::string& one : about.left_out) text += paragraph("", 0, "Not laid: " + one + ".");
  text += paragraph(
      "", 0,
      "Gains: hot degree-hours of a year, from runs with all places laid and, of many, with half; likely prices. "
      "Squares as on the maps of houseleek study --report.");
  return text;
}

}  // namespace houseleek::report
