// What a project's logbook adds to an answer: figures measured on the roof, today's store of water, bills.
#include "report/logbook_answer.hpp"

#include <fmt/format.h>

#include "report/json_parts.hpp"
#include "report/paragraph.hpp"

namespace houseleek::report {

Json json_from_bills(const std::vector<BillsAnswer>& bills) {
  Json list = Json::array();
  for (const BillsAnswer& one : bills) {
    list.push_back({{"item", one.item},
                    {"outcome", one.outcome},
                    {"n_bills", one.n_bills},
                    {"n_before", one.n_before},
                    {"n_after", one.n_after},
                    {"less_kwh_per_year", json_from(one.less_kwh_per_year)},
                    {"weather_from", one.weather_from},
                    {"sentence", one.sentence}});
  }
  return list;
}

Json json_from(const LogbookAnswer& answer) {
  Json measured = Json::array();
  for (const MeasuredFigure& one : answer.measured) {
    measured.push_back({{"path", one.path}, {"figure", json_from(one.figure)}, {"statement", one.statement}});
  }
  Json stores = Json::array();
  for (const StoreToday& one : answer.stores) {
    stores.push_back({{"recipe", one.recipe},
                      {"store_frac", json_from(one.store_frac)},
                      {"can_wait_days", json_from(one.can_wait_days)},
                      {"statement", one.statement}});
  }
  return {{"on", answer.on},
          {"measured", std::move(measured)},
          {"left_out", answer.left_out},
          {"stores", std::move(stores)},
          {"bills", json_from_bills(answer.bills)}};
}

std::string text_from(const LogbookAnswer& answer) {
  std::string text;
  for (const MeasuredFigure& one : answer.measured) text += paragraph("  -", 4, one.statement);
  for (const std::string& one : answer.left_out) text += paragraph("  -", 4, fmt::format("Not used: {}.", one));
  for (const StoreToday& one : answer.stores) text += paragraph("  -", 4, one.statement);
  for (const BillsAnswer& one : answer.bills) text += paragraph("  -", 4, one.sentence);
  if (text.empty()) return "";
  return fmt::format("\nFrom the logbook, up to {}\n{}", answer.on, text);
}

}  // namespace houseleek::report
