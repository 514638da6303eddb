// An answer kept in the project it came from, with all that is needed to make it again.
#include "studies/keep_answer.hpp"

#include <algorithm>

#include "report/json_parts.hpp"

namespace houseleek::studies {

std::int64_t keep_answer(const store::Project& project, const AnswerToKeep& answer) {
  // The newest with this text: somebody may have saved another one while the answer was made.
  const std::vector<store::Revision> revisions = store::read_revisions(project);
  const auto revision = std::find_if(revisions.rbegin(), revisions.rend(), [&answer](const store::Revision& one) {
    return one.toml_text == answer.design_text;
  });
  expects(revision != revisions.rend(), "a design that is a revision of the project");
  const report::Json& engine = answer.document.at("engine");
  store::StoredResult result;
  result.revision = revision->number;
  result.made_utc_s = answer.now_utc_s;
  result.command = answer.command;
  result.engine_version = engine.at("version").get<std::string>();
  result.options_json = answer.options.dump();
  result.seed = engine.at("seed").dump();
  result.input_hash = engine.at("input_hash").get<std::string>();
  result.answer_json = report::text_from(answer.document);
  return store::add_result(project, result);
}

}  // namespace houseleek::studies
