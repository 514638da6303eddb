// What stands behind the answers: assumptions with their ranges, the weather in use, and what the solver did.
#include <fmt/format.h>

#include "report/chart_parts.hpp"
#include "report/figure_html.hpp"
#include "report/notes.hpp"
#include "report/study_sections.hpp"

namespace houseleek::report {
namespace {

std::string text_at(const Json& node, const char* key) { return node.at(key).get<std::string>(); }

std::string with_blanks(std::string text) {
  for (char& c : text) {
    if (c == '_') c = ' ';
  }
  return text;
}

/// Units of names and columns as print has them.
std::string unit_in_print(std::string unit) {
  struct Sign {
    std::string_view plain;
    std::string_view printed;
  };
  constexpr Sign signs[] = {
      {"degC", "\u00B0C"}, {"m2", "m\u00B2"}, {"m3", "m\u00B3"}, {"m^(1/3)", "m\u00B9\u2044\u00B3"}};
  for (const Sign& sign : signs) {
    for (std::size_t at = unit.find(sign.plain); at != std::string::npos; at = unit.find(sign.plain, at)) {
      unit.replace(at, sign.plain.size(), sign.printed);
      at += sign.printed.size();
    }
  }
  return unit;
}

/// A note on a column of the weather, with the column's name in words: global_w_per_m2: ... becomes Sun: ...
std::string weather_note_in_print(const std::string& note) {
  struct Column {
    std::string_view name;
    std::string_view words;
  };
  constexpr Column columns[] = {{"global_w_per_m2", "Sun on the flat"},
                                {"diffuse_w_per_m2", "Sun out of clouds and sky"},
                                {"air_temperature_c", "Air temperature"},
                                {"vapour_pressure_pa", "Humidity"},
                                {"rain_mm_per_10_min", "Rain"},
                                {"rain_mm", "Rain"},
                                {"wind_m_per_s", "Wind"},
                                {"sky_longwave_w_per_m2", "Heat radiation of the sky"}};
  for (const Column& column : columns) {
    if (!note.starts_with(std::string(column.name) + ":")) continue;
    return sentence_in_print(std::string(column.words) + note.substr(column.name.size()));
  }
  return sentence_in_print(note);
}

/// What an assumption belongs to: material[crushed brick], room[0], site.
std::string group_of(const std::string& path) {
  const std::size_t bracket = path.find(']');
  if (bracket != std::string::npos) return path.substr(0, bracket + 1);
  return path.substr(0, path.find('.'));
}

/// A group as a person calls it: room[0] is the room's name.
std::string words_of_group(const Json& document, const std::string& group) {
  const std::size_t bracket = group.find('[');
  if (bracket == std::string::npos) return group;
  const std::string kind = group.substr(0, bracket);
  const std::string which = group.substr(bracket + 1, group.size() - bracket - 2);
  if (kind == "prices") return "price of " + which;
  for (const auto& [singular, list] : {std::pair{"room", "rooms"}, std::pair{"recipe", "recipes"}}) {
    if (kind == singular) return kind + " " + text_at(document.at(list)[std::stoul(which)], "name");
  }
  return kind + " " + which;
}

Html number_cell(const Json& document, const std::string& pointer) {
  return element("td", {{"class", "n"}}, number_at(document, pointer));
}

/// house.planted_minus_bare.degree_hours_above_k_h in words: its last two names, the unit as it is printed.
std::string words_of_path(const std::string& path) {
  struct Unit {
    std::string_view suffix;
    std::string_view words;
  };
  constexpr Unit units[] = {{"_k_h", ", K h"}, {"_kwh", ", kWh"}, {"_c", ", \u00B0C"}, {"_k", ", K"}};
  std::string_view rest = path;
  std::string_view unit_words;
  for (const Unit& unit : units) {
    if (!rest.ends_with(unit.suffix)) continue;
    unit_words = unit.words;
    rest.remove_suffix(unit.suffix.size());
    break;
  }
  const std::size_t last = rest.rfind('.');
  const std::size_t before = last == std::string_view::npos ? last : rest.rfind('.', last - 1);
  std::string words(rest.substr(before == std::string_view::npos ? 0 : before + 1));
  for (char& c : words) {
    if (c == '_' || c == '.') c = ' ';
  }
  return words.append(unit_words);
}

/// What a figure becomes at one end of an assumption; a dash where the description would be refused with it.
Html end_of(const Json& document, const std::string& pointer) {
  return document.at(Json::json_pointer(pointer)).is_null() ? html_from("\u2013") : number_at(document, pointer);
}

/// The one figure by which assumptions are ranked, at both ends of an assumption; else a mark for why not.
Html effect_cell(const Json& document, std::size_t index, const Notes& notes) {
  const Json& one = document.at("assumed")[index];
  const Json& effects = one.at("effects");
  const Json& ranked_on = document.at("assumed_ranked").at("on");
  for (std::size_t i = 0; i < effects.size(); ++i) {
    if (effects[i].at("on") != ranked_on) continue;
    const std::string place = fmt::format("/assumed/{}/effects/{}", index, i);
    Html words = end_of(document, place + "/low_gives") + html_from(" to ") + end_of(document, place + "/high_gives");
    const int n_days = one.at("effects_of_days").get<int>();
    if (n_days < document.at("engine").at("n_hours").get<int>() / 24) {
      words += html_from(fmt::format(" in {} hot days", n_days));
    }
    return element("td", {{"class", "n"}}, words);
  }
  return element("td", {{"class", "n"}}, html_from("\u2013") + notes.mark(text_at(one, "no_effect_because")));
}

/// `notes` is null where no effect was looked for.
Html assumption_row(const Json& document, std::size_t index, const Notes* notes) {
  const Json& one = document.at("assumed")[index];
  const std::string place = fmt::format("/assumed/{}", index);
  const std::string unit = text_at(one, "unit");
  // Below the heading "material jute fabric" a row need not begin with jute fabric again.
  std::string name = text_at(one, "name");
  const std::string group = group_of(text_at(one, "path"));
  if (const std::size_t bracket = group.find('['); bracket != std::string::npos) {
    const std::string repeated = group.substr(bracket + 1, group.size() - bracket - 2) + ": ";
    if (name.starts_with(repeated)) name = name.substr(repeated.size());
  }
  Html words = name_from(name);
  if (!unit.empty()) words += html_from(", " + unit_in_print(unit));
  Html cells = element("th", {{"scope", "row"}}, words);
  if (one.at("low") == one.at("likely") && one.at("high") == one.at("likely")) {
    cells += element("td", {{"class", "n"}}, html_from("\u2013")) + number_cell(document, place + "/likely") +
             element("td", {{"class", "n"}}, html_from("\u2013"));
  } else {
    cells += number_cell(document, place + "/low") + number_cell(document, place + "/likely") +
             number_cell(document, place + "/high");
  }
  cells += element("td", {{"class", "certainty"}}, html_from(with_blanks(text_at(one, "certainty"))));
  if (notes != nullptr) cells += effect_cell(document, index, *notes);
  return element("tr", {}, cells + element("td", {{"class", "source"}}, html_from(text_at(one, "source"))));
}

/// The assumptions that move the answer most, the first one first.
Html ranked_table(const Json& document) {
  const Json& ranked = document.at("assumed_ranked");
  const Json& most = ranked.at("most");
  if (most.empty()) {
    return element("p", {{"class", "not-yet"}},
                   html_from("Which of these move the answer most: " + text_at(ranked, "from") + "."));
  }
  Html body;
  for (std::size_t i = 0; i < most.size(); ++i) {
    const std::string place = fmt::format("/assumed_ranked/most/{}", i);
    Html row = element("th", {{"scope", "row"}}, name_from(text_at(most[i], "name")));
    for (const std::string_view end : {"/low_gives", "/likely_gives", "/high_gives"}) {
      row += element("td", {{"class", "n"}}, end_of(document, place + std::string(end)));
    }
    body += element("tr", {}, row);
  }
  Html head = element("th", {{"scope", "col"}}, html_from("assumption"));
  for (const std::string_view words : {"at its low end", "as likely", "at its high end"}) {
    head += element("th", {{"scope", "col"}}, html_from(words));
  }
  const std::string caption = "What moves the answer most: " + words_of_path(text_at(ranked, "on"));
  const Html table = element("table", {},
                             element("caption", {}, html_from(caption)) +
                                 element("thead", {}, element("tr", {}, head)) + element("tbody", {}, body));
  return element("div", {{"class", "scroll"}, {"tabindex", "0"}}, table) +
         element("ul", {{"class", "notes"}}, element_of("li", text_at(ranked, "from")));
}

Html months_from(const Json& months) {
  Html list;
  for (std::size_t i = 0; i < months.size(); ++i) {
    if (i > 0) list += html_from(", ");
    list += html_from(month_letters[months[i].get<std::size_t>() - 1]);
  }
  return list;
}

Html definition(std::string_view term, const Html& words) { return element_of("dt", term) + element("dd", {}, words); }

}  // namespace

Html assumptions_section(const Json& document) {
  const Json& assumed = document.at("assumed");
  bool has_effects = false;
  for (const Json& one : assumed) has_effects = has_effects || !one.at("effects").empty();
  Html head;
  for (const std::string_view words : {"assumed", "low", "likely", "high", "certainty"}) {
    head += element("th", {{"scope", "col"}}, html_from(words));
  }
  if (has_effects)
    head += element("th", {{"scope", "col"}},
                    html_from("makes of " + words_of_path(text_at(document.at("assumed_ranked"), "on"))));
  head += element("th", {{"scope", "col"}}, html_from("source"));
  Notes notes;  // why nothing hangs on an assumption
  for (const Json& one : assumed) {
    if (!one.at("no_effect_because").is_null()) notes.count(text_at(one, "no_effect_because"));
  }
  Html body;
  std::string group;
  for (std::size_t i = 0; i < assumed.size(); ++i) {
    const std::string of_row = group_of(text_at(assumed[i], "path"));
    if (of_row != group) {
      group = of_row;
      body += element("tr", {{"class", "group"}},
                      element("th", {{"colspan", has_effects ? "7" : "6"}, {"scope", "colgroup"}},
                              name_from(words_of_group(document, group))));
    }
    body += assumption_row(document, i, has_effects ? &notes : nullptr);
  }
  Html content = element_of("h2", "What is assumed");
  content += element_of(
      "p",
      "Everything below was not said in the description, or comes from the catalogue. A better figure of your own, "
      "written into the description, takes its place.");
  content += ranked_table(document);
  const Html table = element("table", {{"class", "assumed"}},
                             element("caption", {}, html_from("Assumptions: low, likely, high; certainty and source")) +
                                 element("thead", {}, element("tr", {}, head)) + element("tbody", {}, body));
  content += element("div", {{"class", "scroll"}, {"tabindex", "0"}}, table);
  if (has_effects) {
    content += element_of("p", "A dash for the effect: none was found or looked for.") + notes.list();
  }
  return element("section", {{"id", "assumed"}}, content);
}

Html weather_section(const Json& document) {
  const Json& weather = document.at("weather");
  Html notes;
  for (const Json& note : weather.at("notes"))
    notes += element_of("li", weather_note_in_print(note.get<std::string>()));
  Html content = element_of("h2", "The weather in use");
  content += element("dl", {},
                     definition("Source", html_from(text_at(weather, "source"))) +
                         definition("Hottest months", months_from(weather.at("summer_months"))) +
                         definition("Coldest months", months_from(weather.at("winter_months"))));
  content += table_of_figures(document, html_from("Outside air"),
                              {{html_from("highest"), "\u00B0C", {"/weather/air_max_c"}},
                               {html_from("lowest"), "\u00B0C", {"/weather/air_min_c"}},
                               {html_from("rain"), "mm", {"/water/rain_mm"}}});
  content += element_of("h3", "What was estimated, and how") + element("ul", {{"class", "key"}}, notes);
  return element("section", {{"id", "weather"}}, content);
}

Html engine_section(const Json& document) {
  const Json& engine = document.at("engine");
  const auto number = [&](const char* key) { return number_at(document, fmt::format("/engine/{}", key)); };
  const auto exponent = [&](const char* key) {
    const Json& value = engine.at(key);
    return element("data",
                   {{"value", value.dump()}, {"data-at", fmt::format("/engine/{}", key)}, {"data-form", "exponent"}},
                   html_from(fmt::format("{:.1e}", value.get<double>())));
  };
  Html list = definition("Program", html_from("Houseleek " + text_at(engine, "version")));
  list += definition("Seed", html_from(engine.at("seed").dump()));
  list += definition("Inputs", html_from(text_at(engine, "input_hash")));
  list += definition("Hours kept", number("n_hours") + html_from(" from hour ") + number("first_hour") +
                                       html_from(" of the year, after ") + number("spin_up_hours") +
                                       html_from(" to settle"));
  list += definition("Years of weather", number("n_years") + html_from(", ") + number("n_years_failed") +
                                             html_from(" of them left out because they failed"));
  list += definition("Draws of prices and lives", number("n_draws"));
  list += definition("Runs", number("n_runs") + html_from(" of ") + number("n_stacks") + html_from(" stacks with ") +
                                 number("n_slices") + html_from(" slices"));
  list += definition("Steps", number("n_steps") + html_from(", ") + number("n_newton_iterations") +
                                  html_from(" Newton iterations, ") + number("n_hours_redone") +
                                  html_from(" hours done again, ten minutes split into ") + number("largest_split") +
                                  html_from(" at most"));
  list += definition("Largest error of a step, estimated", number("largest_error_k") + html_from(" K"));
  list += definition("Heat unaccounted for, worst step",
                     exponent("heat_residual_frac") + html_from(" of what went through"));
  list += definition("Water unaccounted for, worst step", exponent("water_residual_m") + html_from(" m"));
  return element("section", {{"id", "made-by"}},
                 element_of("h2", "What made this, and how well its books close") + element("dl", {}, list));
}

}  // namespace houseleek::report
