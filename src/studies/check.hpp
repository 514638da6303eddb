// `houseleek check`: is the description complete and consistent, what is assumed, which cautions apply.
#pragma once
#include <string>
#include <string_view>

#include "catalogue/catalogue.hpp"
#include "report/issue_json.hpp"

namespace houseleek::studies {

struct CheckAnswer {
  bool is_valid = false;  // false: exit code 1
  std::string text;       // valid: for stdout; otherwise the issues, for stderr
  report::Json document;  // schema/check.schema.json, either way
};

/// Pure: the file's text comes in, nothing is opened; a weather file named in the design is not looked at.
[[nodiscard]] CheckAnswer check_design(std::string_view toml_text, std::string_view file_name,
                                       const catalogue::Catalogue& catalogue);

}  // namespace houseleek::studies
