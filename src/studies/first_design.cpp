// `houseleek new`: a first description from ten plain questions, to be made better by its owner.
#include "studies/first_design.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <vector>

#include "base/contract.hpp"
#include "design/edit_text.hpp"
#include "design/parse.hpp"
#include "studies/first_questions.hpp"

namespace houseleek::studies {
namespace {

using report::Json;

constexpr double edge_m = 0.6;  // free along every edge
constexpr double pitch_m = 1.02;
constexpr double outlet_in_m = 0.2;
/// Around an outlet, beyond what validation wants: a hand must reach it.
constexpr double outlet_free_m = 0.5;

struct Answers {
  std::map<std::string, double, std::less<>> numbers;
  std::map<std::string, std::string, std::less<>> texts;
  std::map<std::string, bool, std::less<>> flags;

  [[nodiscard]] double number(std::string_view key) const { return numbers.find(key)->second; }
  [[nodiscard]] const std::string& text(std::string_view key) const { return texts.find(key)->second; }
  [[nodiscard]] bool has(std::string_view key) const {
    return numbers.find(key) != numbers.end() || texts.find(key) != texts.end();
  }
};

struct Choice {
  std::string_view word;
  std::string_view meaning;
};

std::vector<Choice> choices_of(std::string_view choices) {
  std::vector<Choice> list;
  while (!choices.empty()) {
    const std::size_t end = std::min(choices.find('|'), choices.size());
    const std::string_view one = choices.substr(0, end);
    const std::size_t equals = one.find('=');
    list.push_back({one.substr(0, equals), one.substr(equals + 1)});
    choices.remove_prefix(std::min(end + 1, choices.size()));
  }
  return list;
}

Issue issue_of(const FirstField& field, IssueCode code, std::string value, std::string message) {
  Issue issue;
  issue.code = code;
  issue.path = field.key;
  issue.value = std::move(value);
  issue.message = fmt::format("{}: {}", field.label, message);
  return issue;
}

void read_number(const FirstField& field, const Json& value, Answers& answers, Issues& issues) {
  if (!value.is_number()) {
    issues.push_back(issue_of(field, IssueCode::wrong_type, value.dump(), "a number is wanted"));
    return;
  }
  const double number = value.get<double>();
  const bool is_whole = field.kind != FieldKind::whole || number == std::floor(number);
  if (!(number >= field.least && number <= field.most) || !is_whole) {
    Issue issue = issue_of(field, IssueCode::out_of_range, value.dump(),
                           fmt::format("{} is not {}from {} to {} {}", value.dump(), is_whole ? "" : "a whole number ",
                                       field.least, field.most, field.unit));
    issue.limit = fmt::format("from {} to {}", field.least, field.most);
    issues.push_back(std::move(issue));
    return;
  }
  answers.numbers[std::string(field.key)] = number;
}

void read_text(const FirstField& field, const Json& value, Answers& answers, Issues& issues) {
  if (!value.is_string()) {
    issues.push_back(issue_of(field, IssueCode::wrong_type, value.dump(), "a text is wanted"));
    return;
  }
  const std::string text = value.get<std::string>();
  if (field.kind == FieldKind::choice) {
    const std::vector<Choice> choices = choices_of(field.choices);
    const bool is_known =
        std::any_of(choices.begin(), choices.end(), [&text](const Choice& choice) { return choice.word == text; });
    if (!is_known) {
      issues.push_back(issue_of(field, IssueCode::unknown_name, text, "this is none of the answers"));
      return;
    }
  }
  answers.texts[std::string(field.key)] = text;
}

void read_field(const FirstField& field, const Json& given, Answers& answers, Issues& issues) {
  const auto found = given.find(field.key);
  const bool is_empty =
      found == given.end() || found->is_null() || (found->is_string() && found->get<std::string>().empty());
  if (is_empty) {
    if (!field.is_optional) {
      issues.push_back(issue_of(field, IssueCode::missing_field, "", "this is not answered yet"));
    }
    return;
  }
  switch (field.kind) {
    case FieldKind::number:
    case FieldKind::whole:
      return read_number(field, *found, answers, issues);
    case FieldKind::flag:
      if (!found->is_boolean()) {
        issues.push_back(issue_of(field, IssueCode::wrong_type, found->dump(), "yes or no is wanted"));
      } else {
        answers.flags[std::string(field.key)] = found->get<bool>();
      }
      return;
    case FieldKind::text:
    case FieldKind::choice:
      return read_text(field, *found, answers, issues);
  }
}

/// Twelve months on a cosine between the warmest and the coldest, which come a month after the solstices.
/// Equation: v_m = (warm + cold)/2 + (warm - cold)/2 cos(2 pi (m - m_warm)/12)
/// Source:   common practice, no source: a yearly course is near one wave.
std::string months_between(double warm, double cold, bool is_south) {
  const int warmest = is_south ? 0 : 6;
  std::string list;
  for (int month = 0; month < 12; ++month) {
    const double phase = 2.0 * std::numbers::pi * (month - warmest) / 12.0;
    const double value = 0.5 * (warm + cold) + 0.5 * (warm - cold) * std::cos(phase);
    list += fmt::format("{}{:.1f}", list.empty() ? "" : ", ", value);
  }
  return "[" + list + "]";
}

std::string rain_of_months(const Answers& answers, bool is_south) {
  // Three quarters of the rain in its half of the year: the wave of that share.
  const std::string& season = answers.text("rain_season");
  const double swing = season == "even" ? 0.0 : season == "summer" ? 0.25 * std::numbers::pi : -0.25 * std::numbers::pi;
  const double month_mm = answers.number("rain_mm_per_year") / 12.0;
  const int warmest = is_south ? 0 : 6;
  std::string list;
  for (int month = 0; month < 12; ++month) {
    const double phase = 2.0 * std::numbers::pi * (month - warmest) / 12.0;
    list += fmt::format("{}{:.0f}", list.empty() ? "" : ", ", month_mm * (1.0 + swing * std::cos(phase)));
  }
  return "[" + list + "]";
}

std::string layer(std::string_view list, std::string_view material, double thickness_mm, std::string_view more = "") {
  return fmt::format("[[{}]]\n{}material = \"{}\"\nthickness_mm = {}\n", list, more, material, thickness_mm);
}

std::string deck_words(const Answers& answers) {
  const std::string& deck = answers.text("deck");
  const double slab_mm = answers.number("slab_mm");
  const auto one = [](std::string_view material, double mm) { return layer("roof.deck", material, mm); };
  if (deck == "timber") {
    return one("polymer bitumen sheet", 8) + one("OSB", 22) + one("building mineral wool", slab_mm) +
           one("plasterboard", 12.5);
  }
  const std::string_view slab = deck == "hollow" ? "hollow clay blocks" : "reinforced concrete";
  const std::string insulation = deck == "insulated_concrete" ? one("rock wool roof board", 80) : "";
  return one("bitumen felt", 8) + insulation + one("cement screed", 50) + one(slab, slab_mm) + one("lime plaster", 15);
}

struct Point {
  double x_m = 0.0;
  double y_m = 0.0;
};

std::vector<Point> outlet_points(const Answers& answers) {
  const double width_m = answers.number("width_m");
  const double depth_m = answers.number("depth_m");
  const std::string& side = answers.text("outlet_side");
  const int count = static_cast<int>(answers.number("outlets"));
  std::vector<Point> points;
  for (int i = 0; i < count; ++i) {
    const double along = (i + 0.5) / count;
    if (side == "far") points.push_back({width_m * along, depth_m - outlet_in_m});
    if (side == "near") points.push_back({width_m * along, outlet_in_m});
    if (side == "left") points.push_back({outlet_in_m, depth_m * along});
    if (side == "right") points.push_back({width_m - outlet_in_m, depth_m * along});
  }
  return points;
}

/// Bearing downhill: the side the outlets are on.
double fall_towards_deg(const Answers& answers) {
  const std::string& side = answers.text("outlet_side");
  const double turn = side == "far" ? 0.0 : side == "right" ? 90.0 : side == "near" ? 180.0 : 270.0;
  return std::fmod(turn + std::stod(answers.text("ahead")), 360.0);
}

/// Places for modules, row by row from the side the water comes from.
std::vector<Point> free_places(const Answers& answers) {
  const double width_m = answers.number("width_m");
  const double depth_m = answers.number("depth_m");
  const std::vector<Point> outlets = outlet_points(answers);
  std::vector<Point> places;
  for (int row = 0; edge_m + row * pitch_m + 1.0 <= depth_m - edge_m + 1e-9; ++row) {
    for (int column = 0; edge_m + column * pitch_m + 1.0 <= width_m - edge_m + 1e-9; ++column) {
      const Point at{edge_m + column * pitch_m, edge_m + row * pitch_m};
      const bool is_free = std::none_of(outlets.begin(), outlets.end(), [&at](const Point& outlet) {
        const double dx = std::max({at.x_m - outlet.x_m, 0.0, outlet.x_m - at.x_m - 1.0});
        const double dy = std::max({at.y_m - outlet.y_m, 0.0, outlet.y_m - at.y_m - 1.0});
        return dx < outlet_free_m && dy < outlet_free_m;
      });
      if (is_free) places.push_back(at);
    }
  }
  if (answers.text("outlet_side") == "near") std::reverse(places.begin(), places.end());
  return places;
}

std::string site_words(const Answers& answers) {
  const bool is_south = answers.number("latitude_deg") < 0.0;
  return fmt::format(
      "[site]\nlatitude_deg = {}\nlongitude_deg = {}\nelevation_m = {}\ntime_zone = {}\n\n"
      "# Made from the warmest and the coldest month by a wave between them. Twelve months of the nearest weather\n"
      "# station in their place make every answer better.\n"
      "[climate.normals]\nmax_c = {}\nmin_c = {}\nrain_mm = {}\n\n",
      answers.number("latitude_deg"), answers.number("longitude_deg"), answers.number("elevation_m"),
      design::toml_text_from(answers.text("time_zone")),
      months_between(answers.number("warm_day_c"), answers.number("cold_day_c"), is_south),
      months_between(answers.number("warm_night_c"), answers.number("cold_night_c"), is_south),
      rain_of_months(answers, is_south));
}

std::string roof_words(const Answers& answers) {
  const double width_m = answers.number("width_m");
  const double depth_m = answers.number("depth_m");
  std::string text = fmt::format(
      "[roof]\noutline = [[0, 0], [{0}, 0], [{0}, {1}], [0, {1}]]\nnorth_deg = {2}\nfall_mm_per_m = {3}\n"
      "fall_towards_deg = {4}\nparapet_height_mm = {5}\nfinish = {6}\n\n",
      width_m, depth_m, answers.text("ahead"), answers.number("fall_mm_per_m"), fall_towards_deg(answers),
      answers.number("parapet_height_mm"), design::toml_text_from(answers.text("finish")));
  text += "# From the membrane down to the ceiling.\n" + deck_words(answers) + "\n";
  int number = 0;
  for (const Point& at : outlet_points(answers)) {
    text += fmt::format("[[roof.outlet]]\nname = \"outlet {}\"\nat = [{:.2f}, {:.2f}]\ndiameter_mm = 80\n\n", ++number,
                        at.x_m, at.y_m);
  }
  if (!answers.has("load_kn_per_m2")) return text;
  text += fmt::format("[roof.allowable_load]\nload_kn_per_m2 = {}\n", answers.number("load_kn_per_m2"));
  if (answers.has("load_who")) text += fmt::format("who = {}\n", design::toml_text_from(answers.text("load_who")));
  if (answers.has("load_when")) text += fmt::format("when = {}\n", design::toml_text_from(answers.text("load_when")));
  if (answers.has("load_includes")) {
    text += fmt::format("includes = {}\n", design::toml_text_from(answers.text("load_includes")));
  }
  return text + "\n";
}

std::string rooms_words(const Answers& answers) {
  const int count = static_cast<int>(answers.number("rooms"));
  const double width_m = answers.number("width_m");
  const double depth_m = answers.number("depth_m");
  const auto has_fans = answers.flags.find("has_fans");
  std::string text;
  for (int i = 0; i < count; ++i) {
    const double left = width_m * i / count;
    const double right = width_m * (i + 1) / count;
    const bool is_bedroom = i < static_cast<int>(answers.number("bedrooms"));
    text += fmt::format(
        "[[room]]\nname = \"{0} {1}\"\noutline = [[{2:.3f}, 0], [{3:.3f}, 0], [{3:.3f}, {4}], [{2:.3f}, {4}]]\n"
        "thermal_mass = \"{5}\"\nis_bedroom = {6}\n",
        is_bedroom ? "bedroom" : "room", i + 1, left, right, depth_m, answers.text("thermal_mass"), is_bedroom);
    if (has_fans != answers.flags.end() && has_fans->second) {
      text += "fan = { air_speed_m_per_s = 0.9, power_w = 40 }\n";
    }
    text += "\n";
  }
  return text;
}

std::string recipes_words() {
  std::string text =
      "[[recipe]]\nname = \"light stonecrop\"\nlength_mm = 1000\nwidth_mm = 1000\nplaced = \"raised\"\n"
      "spacer = { height_mm = 30, edges = \"open\" }\n";
  text += layer("recipe.layer", "light compost-perlite-coir mix", 50, "role = \"medium\"\n");
  text += layer("recipe.layer", "recycled polyester felt", 3, "role = \"filter\"\n");
  text += layer("recipe.layer", "horticultural mineral wool", 40, "role = \"core\"\n");
  text += "[[recipe.plant]]\nname = \"Sedum album\"\n[[recipe.plant]]\nname = \"Sedum acre\"\n";
  text +=
      "[recipe.watering]\nsummer_every_days = 7\nbetween_every_days = 21\nwinter_every_days = 0\n"
      "litres_per_module = 8\n\n";
  text += "[[recipe]]\nname = \"deeper herbs\"\nlength_mm = 1000\nwidth_mm = 1000\nplaced = \"flat\"\n";
  text += layer("recipe.layer", "mineral roof medium", 80, "role = \"medium\"\n");
  text += layer("recipe.layer", "recycled polyester felt", 3, "role = \"filter\"\n");
  text += layer("recipe.layer", "expanded clay", 40, "role = \"core\"\n");
  text += "[[recipe.plant]]\nname = \"Thymus serpyllum\"\n[[recipe.plant]]\nname = \"Allium senescens\"\n";
  text += "[recipe.watering]\nwhen_store_below_frac = 0.35\nlitres_per_module = 12\n\n";
  return text;
}

std::string patch_words(const Answers& answers, const std::vector<Point>& places) {
  const std::size_t count = static_cast<std::size_t>(answers.number("modules"));
  if (count == 0) return "";
  std::string at;
  for (std::size_t i = 0; i < count; ++i) {
    at += fmt::format("{}[{:.2f}, {:.2f}]", at.empty() ? "" : ", ", places[i].x_m, places[i].y_m);
  }
  return fmt::format("[[patch]]\nrecipe = \"{}\"\nat = [{}]\n\n",
                     answers.text("recipe") == "light" ? "light stonecrop" : "deeper herbs", at);
}

std::string_view word_of(FieldKind kind) {
  switch (kind) {
    case FieldKind::text:
      return "text";
    case FieldKind::number:
      return "number";
    case FieldKind::whole:
      return "whole";
    case FieldKind::choice:
      return "choice";
    case FieldKind::flag:
      return "flag";
  }
  return "";
}

}  // namespace

Json first_questions() {
  Json questions = Json::array();
  for (const FirstQuestion& question : first_question_table()) {
    Json fields = Json::array();
    for (const FirstField& field : question.fields) {
      Json choices = Json::array();
      for (const Choice& choice : choices_of(field.choices)) {
        choices.push_back({{"word", choice.word}, {"meaning", choice.meaning}});
      }
      fields.push_back({{"key", field.key},
                        {"label", field.label},
                        {"kind", word_of(field.kind)},
                        {"unit", field.unit},
                        {"choices", std::move(choices)},
                        {"usual", field.usual},
                        {"is_optional", field.is_optional}});
    }
    questions.push_back({{"title", question.title}, {"help", question.help}, {"fields", std::move(fields)}});
  }
  return {{"answer", "questions"}, {"questions", std::move(questions)}};
}

Result<std::string> first_design(const Json& given, const catalogue::Catalogue& catalogue) {
  Answers answers;
  Issues issues;
  for (const FirstQuestion& question : first_question_table()) {
    for (const FirstField& field : question.fields) read_field(field, given, answers, issues);
  }
  if (!issues.empty()) return Unexpected{issues};
  const auto above = [&](std::string_view high, std::string_view low, std::string_view what) {
    if (answers.number(high) > answers.number(low)) return;
    issues.push_back(inconsistent_issue(std::string(low), fmt::format("{}", answers.number(low)),
                                        fmt::format("{} is not below {}", answers.number(low), answers.number(high)),
                                        std::string(what)));
  };
  above("warm_day_c", "warm_night_c", "nights are colder than afternoons");
  above("cold_day_c", "cold_night_c", "nights are colder than afternoons");
  above("warm_day_c", "cold_day_c", "the warmest month is warmer than the coldest");
  const std::vector<Point> places = free_places(answers);
  if (answers.number("modules") > static_cast<double>(places.size())) {
    issues.push_back(inconsistent_issue(
        "modules", fmt::format("{}", answers.number("modules")),
        fmt::format("{} modules do not fit: there are {} places", answers.number("modules"), places.size()),
        "0.6 m stay free along the edges, and more around outlets"));
  }
  if (answers.number("bedrooms") > answers.number("rooms")) {
    issues.push_back(inconsistent_issue("bedrooms", fmt::format("{}", answers.number("bedrooms")),
                                        "there are more bedrooms than rooms", ""));
  }
  if (!issues.empty()) return Unexpected{issues};
  const std::string text = fmt::format(
      "# Made from the answers to ten questions. Change any figure; what is not said here is assumed, with a range, "
      "and\n"
      "# every answer lists it.\nformat = 1\nname = {}\n\n{}{}{}{}{}[prices]\ncurrency = {}\n",
      design::toml_text_from(answers.text("name")), site_words(answers), roof_words(answers), rooms_words(answers),
      recipes_words(), patch_words(answers, places), design::toml_text_from(answers.text("currency")));
  const Result<design::ValidDesign> read = design::read_design(text, "new", catalogue);
  if (read) return text;
  // A name of a zone or a currency that is none: the field has the same name in the description.
  for (Issue issue : read.error()) {
    const std::size_t dot = issue.path.rfind('.');
    const std::string key = dot == std::string::npos ? issue.path : issue.path.substr(dot + 1);
    if (answers.has(key)) issue.path = key;
    if (issue.path.rfind("roof.allowable_load.", 0) == 0) issue.path = "load_" + key;
    issues.push_back(std::move(issue));
  }
  return Unexpected{issues};
}

}  // namespace houseleek::studies
