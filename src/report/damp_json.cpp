// Damp in the deck as JSON.
#include "report/damp_json.hpp"

#include "report/json_parts.hpp"

namespace houseleek::report {
namespace {

Json from_case(const DampCase& one) {
  return {{"name", one.name},
          {"says", one.says},
          {"wood_percent", one.wood_percent},
          {"driest_humidity_percent", one.driest_humidity_percent},
          {"left_kg_per_m2", one.left_kg_per_m2}};
}

Json from_cover(const DampCover& cover) {
  Json cases = Json::array();
  for (const DampCase& one : cover.cases) cases.push_back(from_case(one));
  return {{"name", cover.name},
          {"form", cover.form},
          {"statement", cover.statement},
          {"cases_dry", cover.n_dries},
          {"cases_wetter", cover.n_wetter},
          {"cases_not_shown", cover.n_not_shown},
          {"wood_percent", json_from(cover.wood_percent)},
          {"wood_months_above_20", json_from(cover.wood_months_above_20)},
          {"driest_humidity_percent", json_from(cover.driest_humidity_percent)},
          {"left_kg_per_m2", json_from(cover.left_kg_per_m2)},
          {"mould_index", json_from(cover.mould_index)},
          {"water_by_month",
           {{"low_kg_per_m2", cover.series.low_kg_per_m2},
            {"likely_kg_per_m2", cover.series.likely_kg_per_m2},
            {"high_kg_per_m2", cover.series.high_kg_per_m2}}},
          {"cases", std::move(cases)},
          {"steady",
           {{"statement", cover.steady.statement},
            {"most_kg_per_m2", json_from(cover.steady.most_kg_per_m2)},
            {"left_kg_per_m2", json_from(cover.steady.left_kg_per_m2)}}}};
}

Json from_surface(const DampSurface& surface) {
  return {{"statement", surface.statement},
          {"month", surface.month == 0 ? Json(nullptr) : Json(surface.month)},
          {"needed_factor", json_from(surface.needed_factor)},
          {"deck_factor", json_from(surface.deck_factor)},
          {"edge_factor", json_from(surface.edge_factor)}};
}

}  // namespace

Json json_from(const DampAnswer& damp) {
  Json covers = Json::array();
  for (const DampCover& cover : damp.covers) covers.push_back(from_cover(cover));
  return {{"is_run", damp.is_run},
          {"because", damp.because},
          {"statement", damp.statement},
          {"professional", damp.professional},
          {"room", damp.room},
          {"weather", damp.weather},
          {"deck", damp.deck},
          {"first_month", damp.first_month},
          {"years", damp.n_years},
          {"runs", damp.n_runs},
          {"water_residual_kg_per_m2", damp.water_residual_kg_per_m2},
          {"heat_residual_frac", damp.heat_residual_frac},
          {"covers", std::move(covers)},
          {"not_run", damp.not_run},
          {"assumed", json_from_assumptions(damp.assumed)},
          {"left_out", damp.left_out},
          {"surface", from_surface(damp.surface)}};
}

}  // namespace houseleek::report
