// Pieces that several JSON documents share: figures, fields that are not there yet, and the text of a document.
#include "report/json_parts.hpp"

#include <cmath>

#include "base/contract.hpp"

namespace houseleek::report {
namespace {

void expects_finite(const Json& node) {
  if (node.is_number_float()) expects(std::isfinite(node.get<double>()), "finite numbers in an answer");
  if (node.is_structured()) {
    for (const Json& child : node) expects_finite(child);
  }
}

}  // namespace

Json json_from(const results::Figure& figure) {
  if (!figure.value) {
    expects(!figure.because.empty(), "a reason where there is no value");
    return {{"value", nullptr}, {"why", figure.because}};
  }
  if (figure.range) {
    return {{"value", *figure.value},
            {"low", figure.range->low},
            {"high", figure.range->high},
            {"from", figure.range->from}};
  }
  expects(!figure.because.empty(), "a reason where there is no range");
  return {{"value", *figure.value}, {"no_range_because", figure.because}};
}

Json json_from(const std::optional<double>& number) { return number ? Json(*number) : Json(nullptr); }

Json text_or_null(const std::string& text) { return text.empty() ? Json(nullptr) : Json(text); }

Json not_yet() { return {{"status", "not_yet"}}; }

Json json_of_refusal(std::string_view command, const Issues& issues) {
  return {{"answer", command}, {"is_valid", false}, {"issues", json_from_issues(issues)}};
}

std::string text_from(const Json& document) {
  expects_finite(document);
  // Names and notes come from a person's file: bytes that are no UTF-8 must not stop the answer.
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace houseleek::report
