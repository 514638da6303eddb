// The answer of `houseleek upkeep` for a terminal of 80 columns.
#include "report/upkeep_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/civil_time.hpp"
#include "base/number_words.hpp"
#include "report/chart_parts.hpp"
#include "report/paragraph.hpp"
#include "report/words.hpp"

namespace houseleek::report {
namespace {

constexpr std::size_t label_width = 31;
constexpr std::size_t most_storms = 6;
constexpr std::size_t month_width = 4;
constexpr double least_in_table = 0.5;  // replacements in all months
constexpr std::size_t most_left_out = 5;

std::string title_of(const PartUpkeep& part) {
  return part.material.empty() ? part.part : fmt::format("{}, {}", part.part, part.material);
}

std::string first_sentence(const std::string& text) {
  const std::size_t end = text.find(". ");
  return end == std::string::npos ? text : text.substr(0, end + 1);
}

std::string cautions_text(const UpkeepAnswer& answer) {
  std::string text;
  for (const catalogue::Caution& caution : answer.cautions) {
    // On the roof itself; the page and --json have them all.
    const bool is_for_now = caution.when == "always" || caution.when == "heavy_module";
    if (is_for_now && caution.beside == "work") text += fmt::format(" {}", first_sentence(caution.text));
  }
  return text.empty() ? "" : paragraph("", 0, fmt::format("CAUTION:{}", text));
}

std::string lives_text(const UpkeepAnswer& answer) {
  std::string text = "\nHow long parts last (nine in ten that it lies within)\n";
  if (answer.parts.empty()) {
    return text + paragraph("", 2,
                            "No module is logged. Log what was made, and when: houseleek log " +
                                short_name(answer.project, 30) + " made --module A1 --recipe NAME --at DAY");
  }
  std::string silent;
  for (const PartUpkeep& part : answer.parts) {
    if (part.n_failures > 0.0) {
      text += paragraph("  -", 4, part.sentence);
    } else {
      silent += fmt::format("{}{} {} years ({} to {})", silent.empty() ? "" : "; ", title_of(part),
                            two_digits(*part.prior_life_years.value), two_digits(part.prior_life_years.range->low),
                            two_digits(part.prior_life_years.range->high));
    }
  }
  if (!silent.empty()) {
    text += paragraph("  -", 4,
                      fmt::format("Too few to say, for none of them has failed here; the catalogue believes that half "
                                  "last: {}.",
                                  silent));
  }
  return text;
}

/// Three characters: 0.3, 12; a point for less than a twentieth.
std::string count_in_table(double count) {
  if (count < 0.05) return ".";
  return count < 9.95 ? fmt::format("{:.1f}", count) : fmt::format("{:.0f}", count);
}

std::string row_of(const std::string& label, const std::vector<Figure>& months) {
  std::string row = fmt::format("  {:<{}}", short_name(label, label_width - 3), label_width - 2);
  for (const Figure& month : months) row += fmt::format("{:>{}}", count_in_table(*month.value), month_width);
  return row + "\n";
}

std::string forecast_text(const UpkeepAnswer& answer) {
  if (answer.forecast.empty()) return fmt::format("\n{}", paragraph("", 0, answer.forecast_statement));
  std::string text = fmt::format("\nTo replace, month by month\n{:{}}", "", label_width);
  for (const std::string& month : answer.months) {
    const auto at = static_cast<std::size_t>(std::stoi(month.substr(5)) - 1);
    text += fmt::format("{:>{}}", month_letters[at], month_width);
  }
  text += "\n";
  std::size_t n_left_out = 0;
  for (const PartUpkeep& part : answer.parts) {
    if (part.n_in_use == 0.0) continue;
    if (*part.forecast_total.value < least_in_table) {
      ++n_left_out;
    } else {
      text += row_of(title_of(part), part.forecast);
    }
  }
  if (answer.parts.size() > 1) text += row_of("all", answer.forecast);
  std::string low = fmt::format("{:>{}}", "from", label_width);
  std::string high = fmt::format("{:>{}}", "to", label_width);
  for (const Figure& month : answer.forecast) {
    low += fmt::format("{:>{}.0f}", std::max(0.0, month.range->low), month_width);
    high += fmt::format("{:>{}.0f}", month.range->high, month_width);
  }
  text += low + "\n" + high + "\n";
  if (n_left_out > 0) {
    text += paragraph(
        "", 2, fmt::format("Without {} kinds of parts of which less than half a one is expected in all.", n_left_out));
  }
  return text + paragraph("", 2, answer.forecast_statement);
}

std::string storms_text(const UpkeepAnswer& answer) {
  std::string text = fmt::format("\nStorms\n{}", paragraph("", 2, answer.storms.statement));
  const std::vector<upkeep::Storm>& storms = answer.storms.storms;
  const std::size_t from = storms.size() > most_storms ? storms.size() - most_storms : 0;
  for (std::size_t i = from; i < storms.size(); ++i) {
    const upkeep::Storm& storm = storms[i];
    std::string words;
    if (storm.gust_km_per_h) words += fmt::format(" gust {} km/h,", short_number(*storm.gust_km_per_h));
    if (storm.rain_mm) words += fmt::format(" rain {} mm,", short_number(*storm.rain_mm));
    if (storm.hail_mm) words += fmt::format(" hail {} mm,", short_number(*storm.hail_mm));
    if (words.empty()) words = fmt::format(" {},", storm.note);
    std::string failed;
    for (const upkeep::FailedParts& one : storm.failed) {
      failed += fmt::format("{}{} ({:.0f})", failed.empty() ? "" : ", ", one.part, one.n_parts);
    }
    text += paragraph(fmt::format("  {}", storm.day), 14,
                      fmt::format("{} found failed within {} days: {}", words.substr(1), upkeep::days_after_storm,
                                  failed.empty() ? "nothing" : failed));
  }
  if (from > 0) text += fmt::format("  (and {} before: --json)\n", from);
  return text;
}

std::string looks_text(const UpkeepAnswer& answer) {
  std::string text = fmt::format("\nTo look at ({})\n", upkeep::looks_from);
  for (const upkeep::LookDue& look : answer.looks) {
    const std::string last =
        look.last_day ? fmt::format("last {}", text_from_day(*look.last_day)) : std::string("never logged");
    text += paragraph(look.is_due ? "  NOW" : fmt::format("  {}", text_from_day(look.due_day)), 14,
                      fmt::format("{}, every {} days, {}", look.what, look.every_days, last));
  }
  return text;
}

std::string steps_text(const std::vector<upkeep::Step>& steps) {
  std::string text;
  int number = 0;
  for (const upkeep::Step& step : steps) {
    text += paragraph(fmt::format("  [ ] {}.", ++number), 9, step.text);
    if (!step.caution.empty()) text += paragraph("", 9, fmt::format("CAUTION: {}", step.caution));
  }
  return text;
}

std::string round_text(const std::string& title, const Round& round) {
  if (!round.is_shown) return "";
  return fmt::format("\n{} ({})\n", title, round.because) + steps_text(round.steps);
}

std::string bills_text(const UpkeepAnswer& answer) {
  if (answer.bills.empty()) return "";
  std::string text = "\nBills before and after the modules\n";
  for (const BillsAnswer& one : answer.bills) text += paragraph("  -", 4, one.sentence);
  return text;
}

std::string left_out_text(const UpkeepAnswer& answer) {
  if (answer.left_out.empty()) return "";
  std::string text = "\nEvents of which nothing could be made\n";
  for (std::size_t i = 0; i < std::min(most_left_out, answer.left_out.size()); ++i) {
    text += paragraph(fmt::format("  {}", answer.left_out[i].number), 8, answer.left_out[i].why);
  }
  if (answer.left_out.size() > most_left_out) {
    text += fmt::format("  (and {} more: --json)\n", answer.left_out.size() - most_left_out);
  }
  return text;
}

}  // namespace

std::string text_from(const UpkeepAnswer& answer) {
  std::string text = cautions_text(answer);
  const std::string span = answer.first_day.empty()
                               ? std::string("no events yet")
                               : fmt::format("{} events, {} to {}", answer.n_events, answer.first_day, answer.last_day);
  text += paragraph(
      "", 0,
      fmt::format("{}{}: {} modules made; {}; today {}",
                  answer.design_name.empty() ? "This house" : short_name(answer.design_name, 30),
                  answer.is_invented ? " (INVENTED)" : "", fmt::format("{:.0f}", answer.n_modules), span, answer.on));
  text += round_text("Before a storm", answer.before_storm) + round_text("After a storm", answer.after_storm);
  text += lives_text(answer) + forecast_text(answer) + storms_text(answer) + looks_text(answer);
  text += bills_text(answer) + left_out_text(answer);
  if (answer.is_taking_off_shown) {
    text += fmt::format("\nTaking it off: the order\n{}", steps_text(answer.taking_off.order));
    text += fmt::format("\nWhile the roof is bare\n{}", steps_text(answer.taking_off.re_roofing));
    text += fmt::format("\nWhat will not go back\n{}", steps_text(answer.taking_off.disposal));
  }
  return text + "\n" +
         paragraph("", 0,
                   "More: --before-storm, --after-storm, --taking-off; --report FILE: a page with curves; --json.");
}

}  // namespace houseleek::report
