// The sentences of a verdict.
#include "trials/judge_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace houseleek::trials {

namespace {

constexpr std::size_t days_of_full_coverage = 60;

std::string count_of(std::size_t n, const char* what) { return fmt::format("{} {}{}", n, what, n == 1 ? "" : "s"); }

std::string interval_of(const SideComparison& comparison, const JudgeOptions& options) {
  return fmt::format("{} interval {} to {} {}", percent(comparison.interval_confidence_frac),
                     two_digits(comparison.difference->low), two_digits(comparison.difference->high),
                     unit_of(options.measure));
}

std::string basis_of(const SideComparison& comparison) {
  return fmt::format(
      "{} against {}, {}", count_of(comparison.n_modules_side, "module"), comparison.n_modules_against,
      count_of(comparison.scope == Scope::recipe ? comparison.n_days + comparison.n_days_partial : comparison.n_days,
               "day"));
}

std::string scope_of(const SideComparison& comparison) {
  if (comparison.scope == Scope::recipe) return "This is about the recipes.";
  return "This is about these modules only: fewer than three a side say nothing of the recipe.";
}

std::string more_of(const SideComparison& comparison, const JudgeOptions& options) {
  if (!comparison.more) return "";
  const MoreNeeded& more = *comparison.more;
  const std::string difference = fmt::format("{} {}", two_digits(more.difference), unit_of(options.measure));
  if (comparison.scope == Scope::these_modules) {
    if (!more.days) return fmt::format(" Days alone would not tell {} apart within ten years.", difference);
    return fmt::format(" To tell {} apart it would take about {} of the same readings.", difference,
                       count_of(*more.days, "day"));
  }
  if (!more.modules) return fmt::format(" Not even 200 modules a side would tell {} apart.", difference);
  return fmt::format(" To tell {} apart it would take about {} modules a side over as many days{}.", difference,
                     *more.modules,
                     more.days ? fmt::format(", or about {} with these", count_of(*more.days, "day")) : "");
}

}  // namespace

std::string sentence_of(const SideComparison& comparison, const JudgeOptions& options) {
  const std::string pair = fmt::format("{} and {}", comparison.side, comparison.against);
  if (comparison.outcome == Outcome::too_few) {
    if (comparison.n_days < least_days) {
      return fmt::format("{}: too few to say: {} with a value for every module, {} are needed.", pair,
                         count_of(comparison.n_days, "day"), least_days);
    }
    return fmt::format(
        "{}: too few to say: the values do not vary at all, so the instrument's step hides how sure they "
        "are.",
        pair);
  }
  const std::string seen =
      fmt::format("{}, {}, {}", interval_of(comparison, options), basis_of(comparison), words_of(options.measure));
  if (comparison.outcome == Outcome::not_told_apart) {
    return fmt::format("{} are not told apart: difference {} {} ({}). {}{}", pair,
                       two_digits(comparison.difference->value), unit_of(options.measure), seen, scope_of(comparison),
                       more_of(comparison, options));
  }
  return fmt::format("{} is {} than {} by {} {} ({}). {}", comparison.side,
                     comparison.outcome == Outcome::higher ? "higher" : "lower", comparison.against,
                     two_digits(std::fabs(comparison.difference->value)), unit_of(options.measure), seen,
                     scope_of(comparison));
}

std::vector<std::string> notes_of(const std::vector<SideComparison>& comparisons) {
  std::vector<std::string> notes;
  const auto any = [&](const auto& holds) { return std::any_of(comparisons.begin(), comparisons.end(), holds); };
  if (any([](const SideComparison& c) {
        return c.scope == Scope::these_modules && c.outcome != Outcome::too_few && c.n_days < days_of_full_coverage;
      })) {
    notes.emplace_back(few_days_note);
  }
  for (const SideComparison& c : comparisons) {
    if (c.n_days_flagged > 0) {
      std::string text =
          fmt::format("{} and {}: {} of the days are flagged and were kept.", c.side, c.against, c.n_days_flagged);
      if (c.without_flagged) {
        text += fmt::format(" Without them: {} ({} to {}).", two_digits(c.without_flagged->value),
                            two_digits(c.without_flagged->low), two_digits(c.without_flagged->high));
      }
      notes.push_back(text);
    }
    if (c.n_days_partial > 0) {
      notes.push_back(fmt::format(
          "{} and {}: {} {} a value of some module; {}.", c.side, c.against, count_of(c.n_days_partial, "day"),
          c.n_days_partial == 1 ? "lacks" : "lack",
          c.scope == Scope::recipe ? "such days count for the modules that have one" : "such days were left out"));
    }
  }
  return notes;
}

}  // namespace houseleek::trials
