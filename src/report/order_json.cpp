// What to build next as JSON: two fields of a study, and the document of its own command.
#include "report/order_json.hpp"

namespace houseleek::report {

Json json_from_steps(const OrderAnswer& answer) {
  Json steps = Json::array();
  for (const OrderStep& step : answer.steps) {
    steps.push_back({{"square", step.square},
                     {"left_m", step.left_m},
                     {"bottom_m", step.bottom_m},
                     {"rooms", step.rooms},
                     {"season", step.season},
                     {"cost", step.cost},
                     {"gain_k_h", step.gain_k_h},
                     {"reason", step.reason}});
  }
  return steps;
}

Json json_from(const OrderAbout& about) {
  Json responses = Json::array();
  for (const RoomResponse& one : about.responses) {
    responses.push_back({{"room", one.room}, {"covered_m2", one.covered_m2}, {"gain_k_h", one.gain_k_h}});
  }
  return {{"because", about.because.empty() ? Json(nullptr) : Json(about.because)},
          {"recipe", about.recipe},
          {"placed", about.placed},
          {"currency", about.currency},
          {"budgets", about.budgets},
          {"places", about.n_places},
          {"cost", about.cost},
          {"gain_k_h", about.gain_k_h},
          {"is_exact", about.is_exact},
          {"most_loss_k_h", about.most_loss_k_h},
          {"load_statement", about.load_statement},
          {"statement", about.statement},
          {"left_out", about.left_out},
          {"responses", std::move(responses)}};
}

Json json_from(const OrderAnswer& answer, const std::string& engine_version, const std::string& input_hash) {
  return {{"answer", "order"},
          {"is_valid", true},
          {"design", answer.design_name},
          {"is_invented", answer.is_invented},
          {"engine", {{"version", engine_version}, {"input_hash", input_hash}}},
          {"order", json_from_steps(answer)},
          {"about", json_from(answer.about)}};
}

}  // namespace houseleek::report
