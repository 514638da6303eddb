// What can be said of a design without running a year: for a study that was interrupted.
#include "studies/partial.hpp"

#include <fmt/format.h>

#include "checks/cautions.hpp"
#include "money/plain_sums.hpp"
#include "report/paragraph.hpp"
#include "report/words.hpp"
#include "studies/load_answer.hpp"
#include "studies/recipe_answers.hpp"
#include "studies/roof_answers.hpp"

namespace houseleek::studies {

std::string text_without_runs(const design::ValidDesign& design, const catalogue::Catalogue& catalogue) {
  std::string text = report::paragraph(
      "", 0,
      "PARTIAL, interrupted: rooms, rivals and water were not worked out; this is what needs no year of weather.");
  for (const catalogue::Caution& caution : checks::find_cautions(design, catalogue)) {
    if (caution.is_on_first_page) text += report::paragraph("CAUTION:", 9, caution.text);
  }
  const report::DrainageAnswer drainage = answer_drainage(design);
  text += report::paragraph("1 Carry it?", 13, answer_load(design, drainage).statement);
  text += report::paragraph("  Stay down?", 13, answer_wind(design).statement);
  for (const report::RecipeAnswer& recipe : answer_recipes(design)) {
    text += report::paragraph(
        "2 Made of?", 13,
        fmt::format("{}: {} kg/m2 dry, {} soaked", recipe.name, report::short_figure(recipe.mass_dry_kg_per_m2),
                    report::short_figure(recipe.mass_soaked_kg_per_m2)));
  }
  text += report::paragraph("5 Drain?", 13, drainage.cases.front().statement);
  const results::Figure outlay = money::planted_outlay(design).outlay;
  text += report::paragraph(
      "8 Cost?", 13,
      outlay.value ? fmt::format("{} {}", report::short_figure(outlay), design->prices.currency) : outlay.because);
  return text;
}

}  // namespace houseleek::studies
