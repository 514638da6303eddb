// Both examples on every face: no word promises anything, and without the engineer's whole figure no face has a verdict.
#include <gtest/gtest.h>

#include <regex>
#include <string>
#include <vector>

#include "report/hand_pages.hpp"
#include "report/order_text.hpp"
#include "report/study_html.hpp"
#include "report/study_json.hpp"
#include "report/study_text.hpp"
#include "studies/partial.hpp"
#include "studies/small_study.hpp"
#include "support/catalogue_files.hpp"

namespace houseleek::studies {
namespace {

using report::Json;

struct Face {
  std::string name;
  std::string text;
};

struct Faces {
  Json document;
  std::vector<Face> all;
};

std::string example_text(const char* name) {
  return tests::source_file_text(std::string("examples/") + name + "/roof.toml");
}

/// Two days: what is said of the load, the water and the fire does not hang on how long rooms are run.
Faces faces_of(const std::string& text) {
  StudyOptions options = tests::short_options();
  options.run.n_hours = 48;
  options.run.spin_up_hours = 24;
  options.n_draws = 20;
  options.keeps_columns = true;
  const report::StudyAnswer answer = tests::study_of(text, options);
  Faces faces;
  faces.document = report::json_from(answer);
  faces.document["logbook"] = nullptr;
  const report::ReportHead head{"today"};
  faces.all = {{"terminal", report::text_from(answer)},
               {"json", report::text_from(faces.document)},
               {"report", report::page_of_study(faces.document, *answer.columns, head)},
               {"page for the engineer", report::page_for_engineer(faces.document, head)},
               {"page for the roofer", report::page_for_roofer(faces.document, head)},
               {"order", report::text_from(answer.order)},
               {"check", text_without_runs(tests::valid_design(text), tests::shipped_catalogue())}};
  return faces;
}

/// With a few characters of its surroundings, or nothing.
std::string find_in(const std::string& text, const std::regex& words) {
  std::smatch found;
  if (!std::regex_search(text, found, words)) return "";
  const auto at = static_cast<std::size_t>(found.position());
  const std::size_t from = at < 60 ? 0 : at - 60;
  return text.substr(from, 160);
}

constexpr const char* examples[] = {"01-terrace-house", "02-garage-studio"};

TEST(EveryFace, OfBothExamplesPromisesNothing) {
  const std::regex promise(R"(\b(safe|safely|ok|okay|pass|passes|passed)\b)", std::regex::icase);
  for (const char* example : examples) {
    for (const Face& face : faces_of(example_text(example)).all) {
      ASSERT_FALSE(face.text.empty()) << example << ", " << face.name;
      EXPECT_EQ(find_in(face.text, promise), "") << example << ", " << face.name;
    }
  }
}

/// The description without the line that begins so in the engineer's figure.
std::string without_line(const std::string& text, const std::string& key) {
  const std::size_t table = text.find("[roof.allowable_load]");
  const std::size_t line = text.find("\n" + key + " = ", table);
  if (table == std::string::npos || line == std::string::npos) return "";
  return text.substr(0, line) + text.substr(text.find('\n', line + 1));
}

void expect_no_verdict(const Json& node, const std::string& where) {
  if (node.is_array()) {
    for (const Json& child : node) expect_no_verdict(child, where);
  }
  if (!node.is_object()) return;
  for (const auto& [key, child] : node.items()) {
    if (key.size() >= 7 && key.substr(key.size() - 7) == "verdict" && child.is_string()) {
      EXPECT_EQ(child, "none") << where << "." << key;
    }
    expect_no_verdict(child, where + "." + key);
  }
}

TEST(EveryFace, WithoutTheWholeFigureHasNoVerdict) {
  const std::regex verdict(R"((within|above)\s+the\s+(figure|[0-9.]+(\s+kN/m2)?)\s+that)");
  for (const char* example : examples) {
    const std::string text = example_text(example);
    const Faces whole = faces_of(text);
    EXPECT_NE(find_in(whole.all.front().text, verdict), "") << example << ": what is looked for is what faces say";
    for (const char* key : {"load_kn_per_m2", "who", "when", "includes"}) {
      const std::string less = without_line(text, key);
      ASSERT_NE(less, "") << example << ", " << key;
      const Faces faces = faces_of(less);
      const std::string what = std::string(example) + " without " + key + ", ";
      for (const Face& face : faces.all) {
        EXPECT_EQ(find_in(face.text, verdict), "") << what << face.name;
      }
      for (const std::size_t face : {0U, 2U, 3U}) {
        EXPECT_NE(faces.all[face].text.find("o verdict"), std::string::npos) << what << faces.all[face].name;
      }
      expect_no_verdict(faces.document.at("load"), what + "load");
      EXPECT_TRUE(faces.document.at("load").at("utilisation_local_max_frac").at("value").is_null()) << what;
      EXPECT_TRUE(faces.document.at("load").at("utilisation_span_max_frac").at("value").is_null()) << what;
    }
  }
}

}  // namespace
}  // namespace houseleek::studies
