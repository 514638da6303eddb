// The answers in a sentence each, in the order in which a householder should read them.
#include "studies/sentences.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/month_name.hpp"
#include "report/words.hpp"
#include "studies/cash_words.hpp"

namespace houseleek::studies {
namespace {

using report::CoverKind;
using report::Figure;
using report::RoomFigures;
using report::short_figure;
using report::short_name;
using report::short_number;
using report::StudyAnswer;

constexpr std::size_t widest_name = 28;
constexpr std::size_t widest_person = 40;
constexpr std::size_t most_recipes_shown = 2;

const RoomFigures& under(const report::RoomAnswer& room, CoverKind cover) {
  return room.covers[report::index_of(cover)];
}

double value_of(const Figure& figure) { return figure.value.value_or(0.0); }

std::string whole(double count) { return fmt::format("{:.0f}", count); }

std::string tenths(double number) { return fmt::format("{:.1f}", number); }

/// A figure with its unit, and its range behind a comma: 42.6 degC, 41.8 to 43.5. Without a range no comma.
std::string ranged(const Figure& figure, std::string_view unit, std::string (*number)(double) = short_number) {
  if (!figure.value) return "not known";
  const std::string text = fmt::format("{}{}{}", number(*figure.value), unit.empty() ? "" : " ", unit);
  if (!figure.range) return text;
  return fmt::format("{}, {} to {}", text, number(figure.range->low), number(figure.range->high));
}

std::string rival_words(const report::RivalAnswer& rival) {
  const std::string what = rival.name == "white" ? "paint" : rival.name == "net" ? "a raised net" : "a board";
  return what + (rival.extent == "whole_roof" ? " on the whole roof" : " on the same squares");
}

const RoomFigures& under_rival(const StudyAnswer& answer, const report::RivalAnswer& rival) {
  const bool is_whole = rival.extent == "whole_roof";
  if (rival.name == "white") return under(answer.house, is_whole ? CoverKind::white_whole : CoverKind::white_same);
  if (rival.name == "net") return under(answer.house, is_whole ? CoverKind::net_whole : CoverKind::net_same);
  return under(answer.house, is_whole ? CoverKind::board_whole : CoverKind::board_same);
}

/// The rival that takes most degree-hours away for its money, if one beats the modules in that; else the one that
/// leaves the fewest, if it beats them.
std::string rivals_sentence(const StudyAnswer& answer) {
  const report::RivalAnswer* best = nullptr;
  for (const report::RivalAnswer& rival : answer.rivals) {
    if (!rival.is_better_for_its_money) continue;
    if (best == nullptr ||
        value_of(rival.degree_hours_less_per_outlay_k_h) > value_of(best->degree_hours_less_per_outlay_k_h)) {
      best = &rival;
    }
  }
  const double bare_k_h = value_of(under(answer.house, CoverKind::bare).degree_hours_above_k_h);
  const double planted_k_h = value_of(under(answer.house, CoverKind::planted).degree_hours_above_k_h);
  const auto money_of = [&answer](const Figure& outlay) {
    return outlay.value ? fmt::format("{} {}", short_number(*outlay.value), answer.money.currency)
                        : std::string("an unknown price");
  };
  // The currency stands beside the rival's price.
  const auto short_money = [](const Figure& outlay) {
    return outlay.value ? short_number(*outlay.value) : std::string("an unknown price");
  };
  const std::string others = answer.roof.n_modules == 0
                                 ? fmt::format("bare {}; no modules are laid yet", short_number(bare_k_h))
                                 : fmt::format("modules {} for {}, bare {}", short_number(planted_k_h),
                                               short_money(answer.money.outlay), short_number(bare_k_h));
  if (best != nullptr) {
    const report::DrawCount count = best->better_for_its_money.value_or(report::DrawCount{});
    const std::string draws = count.n_draws == count.n_all ? std::string("all draws")
                                                           : fmt::format("{} of {} draws", count.n_draws, count.n_all);
    return fmt::format("{} does more for its money in {}: {} degree-hours for {}, {}", rival_words(*best), draws,
                       short_number(value_of(under_rival(answer, *best).degree_hours_above_k_h)),
                       money_of(best->outlay), others);
  }
  for (const report::RivalAnswer& rival : answer.rivals) {
    const double here_k_h = value_of(under_rival(answer, rival).degree_hours_above_k_h);
    if (here_k_h >= planted_k_h) continue;
    if (best == nullptr || here_k_h < value_of(under_rival(answer, *best).degree_hours_above_k_h)) best = &rival;
  }
  if (best != nullptr) {
    return fmt::format("{} leaves less heat: {} hot degree-hours for {}, {}", rival_words(*best),
                       short_number(value_of(under_rival(answer, *best).degree_hours_above_k_h)),
                       money_of(best->outlay), others);
  }
  return fmt::format("none leaves fewer hot degree-hours than the modules: {}, bare {}", short_number(planted_k_h),
                     short_number(bare_k_h));
}

/// What stands before the figure: by which of the two tests.
std::string verdict_words(const report::LoadAnswer& load) {
  if (load.verdict == "within") return "both tests within ";
  if (load.verdict == "none") return "evenly within ";
  const bool is_even = load.uniform.verdict == load.verdict;
  const bool is_span = load.spans.verdict == load.verdict;
  const std::string by = is_even && is_span ? "" : is_even ? ", evenly," : ", along the spans,";
  return (load.verdict == "above" ? "above" : "not shown to stay within") + by + " ";
}

/// What is not worked out breaks nothing.
bool is_held(const report::LoadCaseAnswer& one) {
  const auto holds = [](const std::string& verdict) { return verdict == "none" || verdict == "within"; };
  return holds(one.uniform_verdict) && holds(one.span_verdict);
}

std::string load_sentence(const StudyAnswer& answer) {
  const report::LoadAnswer& load = answer.load;
  if (answer.roof.n_modules == 0 && load.squares.empty()) return "nothing is laid yet";
  const std::string text = fmt::format("soaked {} kN/m2: ", short_figure(load.soaked_max_kn_per_m2));
  if (!load.missing.empty()) return text + "no verdict, nobody wrote down " + report::joined(load.missing);
  const std::string figure =
      fmt::format("the {} that {} wrote down on {}", short_number(load.allowable_kn_per_m2.value_or(0.0)),
                  short_name(load.who, widest_person), short_name(load.when, widest_name));
  if (load.verdict == "none") return text + verdict_words(load) + figure + "; bending unknown, so no verdict";
  const auto n_cases = [&load](bool (*is_meant)(const report::LoadCaseAnswer&)) {
    return std::count_if(load.cases.begin(), load.cases.end(), is_meant);
  };
  const auto n_computed = n_cases([](const report::LoadCaseAnswer& one) { return one.uniform_verdict != "none"; });
  const auto n_beyond = n_cases([](const report::LoadCaseAnswer& one) { return !is_held(one); });
  const std::string rest = n_beyond == 0
                               ? "a screening"
                               : fmt::format("a screening; {} of {} cases beyond or in doubt", n_beyond, n_computed);
  return text + verdict_words(load) + figure + "; " + rest;
}

std::string wind_sentence(const StudyAnswer& answer) {
  const report::WindAnswer& wind = answer.wind;
  const Figure& gust = wind.not_shown_above_km_per_h;
  if (!gust.value) return gust.because;
  const Figure& of_place = wind.gust_of_place_km_per_h;
  const std::string place = of_place.value ? fmt::format("the place has {} once in 50 years", whole(*of_place.value))
                                           : std::string("the place's are not known");
  return fmt::format("dry, not shown to stay above {} km/h gusts (likely {}); {}: a screening, local codes decide",
                     whole(gust.range->low), whole(*gust.value), place);
}

std::string drain_sentence(const StudyAnswer& answer) {
  const std::vector<report::DrainageCaseAnswer>& cases = answer.drainage.cases;
  const Figure& rain = cases.front().rain_mm_per_h;
  // Without a range it is the hardest rain that is looked at.
  std::string text =
      rain.value ? fmt::format("drains {}{} mm/h", rain.range ? "" : "more than ", short_figure(rain)) : rain.because;
  const report::DrainageCaseAnswer* storm = nullptr;
  const report::DrainageCaseAnswer* blocked = nullptr;
  for (const report::DrainageCaseAnswer& one : cases) {
    if (one.kind == "storm") storm = &one;  // the rarest comes last
    if (one.kind == "blocked") blocked = &one;
  }
  if (storm != nullptr) {
    text += fmt::format("; {} mm once in {:.4g} years", short_figure(storm->max_depth_mm), *storm->return_years);
  }
  if (blocked != nullptr && blocked->water_kn.range->high > 0.0) {
    text += fmt::format("; outlets blocked: {} mm and {} kN of water, which an engineer must judge",
                        short_figure(blocked->max_depth_mm), short_figure(blocked->water_kn));
  }
  return text;
}

std::string recipe_sentence(const StudyAnswer& answer, const design::Design& design) {
  std::string text;
  std::size_t n_shown = 0;
  std::size_t n_laid = 0;
  for (std::size_t i = 0; i < answer.recipes.size(); ++i) {
    const report::RecipeAnswer& recipe = answer.recipes[i];
    if (recipe.n_modules == 0 && answer.roof.n_modules > 0) continue;
    ++n_laid;
    if (n_shown == most_recipes_shown) continue;
    ++n_shown;
    const bool is_raised = design.recipes[i].placed == design::Placed::raised && recipe.raised;
    const report::PlacedAnswer& placed = is_raised ? *recipe.raised : recipe.flat;
    text += fmt::format("{}{} {} kg/m2 dry, {} soaked, U {}", text.empty() ? "" : "; ",
                        short_name(recipe.name, widest_name), short_number(value_of(recipe.mass_dry_kg_per_m2)),
                        short_number(value_of(recipe.mass_soaked_kg_per_m2)),
                        short_figure(Figure{placed.u_value_dry_w_per_m2_k.value, {}, ""}));
  }
  if (n_laid > n_shown) text += fmt::format("; {} more in --json", n_laid - n_shown);
  if (text.empty()) return "no recipe is described";
  return text + fmt::format("; bare U {}", short_figure(Figure{answer.roof.bare.u_value_w_per_m2_k.value, {}, ""}));
}

const report::RoomAnswer* hottest_room(const StudyAnswer& answer) {
  const auto hotter = [](const report::RoomAnswer& a, const report::RoomAnswer& b) {
    return value_of(under(a, CoverKind::bare).operative_max_c) < value_of(under(b, CoverKind::bare).operative_max_c);
  };
  const auto found = std::max_element(answer.rooms.begin(), answer.rooms.end(), hotter);
  return found == answer.rooms.end() ? nullptr : &*found;
}

std::string cooler_sentence(const StudyAnswer& answer) {
  const report::RoomAnswer* room = hottest_room(answer);
  if (room == nullptr) return "no room is described";
  const auto most_c = [&](CoverKind cover) { return short_number(value_of(under(*room, cover).operative_max_c)); };
  const auto hours = [&](CoverKind cover) { return whole(value_of(under(*room, cover).hours_above_limit)); };
  const RoomFigures& planted = under(*room, CoverKind::planted);
  // With several years the difference has a range of its own: hot years are hot with and without modules.
  const Figure& less_k = room->planted_minus_bare.operative_max_k;
  const std::string against_bare = less_k.range ? fmt::format("; against bare {}", ranged(less_k, "K")) : "";
  return fmt::format("{} at its hottest {} (bare {}, painted {}){}; above the limit {} (bare {}, painted {})",
                     short_name(room->name, widest_name), ranged(planted.operative_max_c, "degC"),
                     most_c(CoverKind::bare), most_c(CoverKind::white_same), against_bare,
                     ranged(planted.hours_above_limit, "h", whole), hours(CoverKind::bare),
                     hours(CoverKind::white_same));
}

std::string warmer_sentence(const StudyAnswer& answer) {
  const auto heat = [&](CoverKind cover) { return short_number(value_of(under(answer.house, cover).heat_to_add_kwh)); };
  return fmt::format("heat to add {} (bare {}, painted {}, board {})",
                     ranged(under(answer.house, CoverKind::planted).heat_to_add_kwh, "kWh"), heat(CoverKind::bare),
                     heat(CoverKind::white_same), heat(CoverKind::board_same));
}

std::string enough_words(const Figure& hours_above_limit) {
  if (value_of(hours_above_limit) > 0.0) return "not enough";
  if (!hours_above_limit.range) return "enough in this year";
  return hours_above_limit.range->high > 0.0 ? "enough in half of the years" : "enough in nearly all years";
}

std::string fans_sentence(const StudyAnswer& answer) {
  const RoomFigures& planted = under(answer.house, CoverKind::planted);
  const RoomFigures& bare = under(answer.house, CoverKind::bare);
  if (!planted.hours_above_limit_with_fan.value) {
    return fmt::format("no fan is described; {} room-hours above the limit (bare {})",
                       whole(value_of(planted.hours_above_limit)), whole(value_of(bare.hours_above_limit)));
  }
  std::string text =
      fmt::format("{}: too warm with them {} (bare {})", enough_words(planted.hours_above_limit_with_fan),
                  ranged(planted.hours_above_limit_with_fan, "room-hours", whole),
                  whole(value_of(bare.hours_above_limit_with_fan)));
  if (planted.night) {
    const bool has_fan = planted.night->hours_above_limit_with_fan.value.has_value();
    const auto nights = [&](const RoomFigures& figures) {
      const report::NightAnswer& night = *figures.night;
      return whole(value_of(has_fan ? night.hours_above_limit_with_fan : night.hours_above_limit));
    };
    text += fmt::format("; in bedrooms at night {} ({})", nights(planted), nights(bare));
  }
  return text;
}

std::string water_sentence(const StudyAnswer& answer) {
  const report::WaterAnswer& water = answer.water;
  if (!water.retained_frac.value) return water.retained_frac.because;
  std::string text =
      fmt::format("{:.0f} % of {:.0f} mm rain and of watering kept; {}", 100.0 * *water.retained_frac.value,
                  value_of(water.rain_mm), ranged(water.watering_l_per_module, "l a module"));
  std::optional<std::size_t> shortest;
  for (std::size_t month = 0; month < 12; ++month) {
    const std::optional<double>& days = water.can_wait_days_by_month[month].value;
    if (days && (!shortest || *days < *water.can_wait_days_by_month[*shortest].value)) shortest = month;
  }
  if (!shortest) return text + "; how long they can wait is not known";
  const std::string unit = fmt::format("days in {}", month_name(static_cast<int>(*shortest) + 1));
  return text + "; full, they can wait " + ranged(water.can_wait_days_by_month[*shortest], unit, tenths);
}

/// Saved in cash, and when the outlay is back.
std::string saved_words(const report::MoneyAnswer& money) {
  const Figure& saved = money.cash.cash_saving_per_year;
  const report::PaybackAnswer& payback = money.cash.payback;
  if (!saved.value || payback.comes_back.n_all == 0) return "cash saved not known";
  if (*saved.value == 0.0 && !saved.range) return "cash saved 0: never back";
  const std::string text = fmt::format("cash saved {} a year", short_number(*saved.value));
  if (payback.likely) return text + fmt::format(", back in {}", payback_words(payback, money.years_counted)) + " years";
  return text + fmt::format(", not back in {} years in {} of {} draws", money.years_counted,
                            payback.comes_back.n_all - payback.comes_back.n_draws, payback.comes_back.n_all);
}

std::string money_sentence(const StudyAnswer& answer) {
  const report::MoneyAnswer& money = answer.money;
  if (!money.outlay.value) return money.outlay.because;
  return fmt::format("{} {}, {} a year to renew, {} for water; {}; apart from it {} less heat to remove",
                     short_figure(money.outlay), money.currency, short_number(value_of(money.replacement_per_year)),
                     short_number(value_of(money.water_per_year)), saved_words(money),
                     ranged(money.comfort_kwh_per_year, "kWh"));
}

std::string next_sentence(const report::OrderAnswer& order) {
  if (order.steps.empty()) return order.about.because;
  const report::OrderStep& first = order.steps.front();
  std::vector<std::string> names;
  for (std::size_t i = 1; i < order.steps.size() && i < 3; ++i) names.push_back(order.steps[i].square);
  const std::string then = names.empty() ? "" : fmt::format("; then {}", fmt::join(names, ", "));
  const std::string over = first.rooms.empty() ? "" : fmt::format(" ({})", short_name(first.rooms[0], widest_name));
  return fmt::format("{}{}: {} hot degree-hours less for {} {}{}", first.square, over, short_number(first.gain_k_h),
                     short_number(first.cost), order.about.currency, then);
}

/// The assumption that moves most what the modules take away, with what it makes of it, and the next one.
std::string unsure_sentence(const StudyAnswer& answer) {
  const std::vector<report::RankedAssumption>& most = answer.assumed_ranked.most;
  const report::EffectFigure& first = most.front().effect;
  // Planted less bare is below zero where heat is taken away.
  const auto less = [](double difference_k_h) { return short_number(-difference_k_h); };
  std::string text = fmt::format(
      "most hangs on {}: {} to {} hot degree-hours less than bare", short_name(most.front().name, widest_person),
      less(first.low_gives.value_or(first.likely_gives)), less(first.high_gives.value_or(first.likely_gives)));
  // The others stand in --json and the report.
  return most.size() < 2 ? text : text + "; then " + short_name(most[1].name, widest_person);
}

}  // namespace

/// Short enough for half a line: what is not computed yet stands behind it.
std::string plants_sentence(const report::PlantsAnswer& plants) {
  int n_there = 0;
  int n_unsure = 0;
  for (const report::PlantsOfPlace& place : plants.places) {
    for (const report::PlantAtPlace& plant : place.there) {
      ++n_there;
      n_unsure += plant.survival == "likely" ? 0 : 1;
    }
  }
  if (n_there == 0) return "no plants are named";
  return n_unsure == 0 ? fmt::format("all {} plantings likely", n_there)
                       : fmt::format("{} of {} plantings not sure", n_unsure, n_there);
}

std::vector<report::QuestionAnswer> answer_questions(const design::Design& design, const StudyAnswer& answer) {
  std::vector<report::QuestionAnswer> answers = {
      {"Rivals?", rivals_sentence(answer)},     {"1 Carry it?", load_sentence(answer)},
      {"  Stay down?", wind_sentence(answer)},  {"2 Made of?", recipe_sentence(answer, design)},
      {"3 Cooler?", cooler_sentence(answer)},   {"  Warmer?", warmer_sentence(answer)},
      {"4 Fans?", fans_sentence(answer)},       {"5 Drain?", drain_sentence(answer)},
      {"6 Water?", water_sentence(answer)},     {"8 Cost?", money_sentence(answer)},
      {"9 Next?", next_sentence(answer.order)},
  };
  if (!answer.damp.short_statement.empty()) {
    const auto fans = std::find_if(answers.begin(), answers.end(),
                                   [](const report::QuestionAnswer& one) { return one.question == "4 Fans?"; });
    answers.insert(fans, {"  Dry?", answer.damp.short_statement});
  }
  answers.push_back({"7 Live?", plants_sentence(answer.plants)});
  if (!answer.assumed_ranked.most.empty()) answers.push_back({"Unsure of?", unsure_sentence(answer)});
  answers.push_back({std::string(unanswered_questions), std::string(not_computed_yet)});
  return answers;
}

}  // namespace houseleek::studies
