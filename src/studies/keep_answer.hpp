// An answer kept in the project it came from, with all that is needed to make it again.
#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "report/issue_json.hpp"
#include "store/records.hpp"

namespace houseleek::studies {

struct AnswerToKeep {
  std::string command;           // study
  std::string_view design_text;  // that was answered; a revision of the project has it
  report::Json options;          // as the person chose them
  report::Json document;         // with an `engine` of version, seed and input_hash
  std::int64_t now_utc_s = 0;
};

/// On the disk when it returns; the number of the result. Errors: StoreError.
[[nodiscard]] std::int64_t keep_answer(const store::Project& project, const AnswerToKeep& answer);

}  // namespace houseleek::studies
