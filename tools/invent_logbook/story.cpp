// What people did on the invented roof: modules made, looked at, mended, watered, weighed; storms; a nursery.
#include "story.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/civil_time.hpp"
#include "base/contract.hpp"
#include "checks/weights.hpp"
#include "climate/calendar.hpp"
#include "stats/sampling.hpp"

namespace houseleek::invent {
namespace {

constexpr double year_days = 365.25;
constexpr std::size_t n_ties = 12;  // on a module
constexpr double gust_over_hourly_wind = 1.8;

struct Date {
  int year = 0;
  int month = 0;
  int day = 0;
};

Date date_of(std::int64_t day) {
  const std::string text = text_from_day(day);
  return {std::stoi(text.substr(0, 4)), std::stoi(text.substr(5, 2)), std::stoi(text.substr(8, 2))};
}

double drawn_life_years(const WearLaw& law, const std::string& name, std::int64_t day, std::size_t index) {
  const double scale = law.median_years / std::pow(std::log(2.0), 1.0 / law.shape);
  return scale * std::pow(-std::log(uniform(name, day, index)), 1.0 / law.shape);
}

/// Something that wears out.
struct Wearing {
  std::int64_t put_in = 0;
  double life_years = 0.0;  // of wear
};

double worn_years(const Story& story, const Wearing& part, std::int64_t day, const WearLaw& law) {
  double worn = static_cast<double>(day - part.put_in) / year_days;
  for (const StormDay& storm : story.storms) {
    if (storm.day > part.put_in && storm.day <= day) worn += law.years_a_storm;
  }
  return worn;
}

/// Days on which somebody goes round: every six to eleven weeks, and soon after storms.
std::vector<std::int64_t> round_days(const Story& story) {
  std::vector<std::int64_t> days;
  const std::int64_t last = day_of(last_day_text);
  std::int64_t day = day_of(first_day_text) + 40;
  for (std::size_t i = 0; day <= last; ++i) {
    days.push_back(day);
    day += 42 + static_cast<std::int64_t>(std::floor(35.0 * uniform("round", 0, i)));
  }
  for (const StormDay& storm : story.storms) {
    const std::int64_t after =
        storm.day + 1 + static_cast<std::int64_t>(std::floor(4.0 * uniform("after", storm.day, 0)));
    if (after <= last) days.push_back(after);
  }
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

const std::string& recipe_name(const Story& story, int recipe) {
  return story.truth->recipes[static_cast<std::size_t>(recipe)].name;
}

}  // namespace

double uniform(const std::string& name, std::int64_t day, std::size_t index) {
  return random_uniform(random_variable(seed, "invented " + name),
                        {.day = static_cast<std::int32_t>(day), .index = static_cast<std::uint32_t>(index)});
}

double normal(const std::string& name, std::int64_t day, std::size_t index) {
  return stats::random_normal(random_variable(seed, "invented " + name),
                              {.day = static_cast<std::int32_t>(day), .index = static_cast<std::uint32_t>(index)});
}

const TrueYear& year_of(const std::vector<TrueYear>& years, std::int64_t day) {
  const int year = date_of(day).year;
  const auto found = std::find_if(years.begin(), years.end(), [year](const TrueYear& one) { return one.year == year; });
  expects(found != years.end(), "a year that was made");
  return *found;
}

std::size_t hour_of_year(std::int64_t day, int hour) {
  const Date date = date_of(day);
  const bool is_leap_day = date.month == 2 && date.day == 29;
  const int of_year =
      climate::first_day_of_month[static_cast<std::size_t>(date.month - 1)] + (is_leap_day ? 28 : date.day) - 1;
  return static_cast<std::size_t>(climate::n_hours_in_day * of_year + hour);
}

Story begin_story(const design::ValidDesign& truth, const std::vector<TrueYear>& years) {
  Story story{truth, years, {}, {}};
  constexpr std::pair<const char*, int> rows[] = {{"A", 14}, {"B", 4}, {"C", 4}, {"D", 2}};
  std::vector<Module> waiting;
  for (const auto& [row, n_modules] : rows) {
    for (int i = 1; i <= n_modules; ++i) waiting.push_back({fmt::format("{}{}", row, i), *row < 'C' ? 0 : 1, 0, 1.0});
  }
  // A few at a time, as money came: one to three every two to four weeks. C and D come after the first eight of A.
  std::stable_sort(waiting.begin(), waiting.end(), [](const Module& a, const Module& b) {
    const auto rank = [](const Module& m) {
      return m.label[0] == 'A' && m.label.size() == 2 && m.label[1] <= '8' ? 0 : m.recipe == 1 ? 1 : 2;
    };
    return rank(a) < rank(b);
  });
  std::int64_t day = day_of(first_day_text) + 8;
  std::size_t left = 0;
  for (std::size_t i = 0; i < waiting.size(); ++i) {
    if (left == 0) {
      left = 1 + static_cast<std::size_t>(std::floor(3.0 * uniform("made", 0, i)));
      if (i > 0) day += 14 + static_cast<std::int64_t>(std::floor(15.0 * uniform("made", 1, i)));
    }
    --left;
    waiting[i].made_day = day;
    waiting[i].mass_factor = 1.0 + module_mass_frac * normal("mass", 0, i);
  }
  story.modules = std::move(waiting);

  struct Windy {
    std::int64_t day;
    double wind_m_per_s;
    double rain_mm;
  };
  std::vector<Windy> windy;
  for (std::int64_t d = day_of(first_day_text); d <= day_of(last_day_text); ++d) {
    const TrueYear& year = year_of(years, d);
    Windy one{d, 0.0, 0.0};
    for (int hour = 0; hour < climate::n_hours_in_day; ++hour) {
      const std::size_t at = hour_of_year(d, hour);
      one.wind_m_per_s = std::max(one.wind_m_per_s, year.weather.wind_m_per_s[at]);
      for (std::size_t slot = 0; slot < 6; ++slot) one.rain_mm += year.weather.rain_mm_per_10_min[6 * at + slot];
    }
    windy.push_back(one);
  }
  std::stable_sort(windy.begin(), windy.end(),
                   [](const Windy& a, const Windy& b) { return a.wind_m_per_s > b.wind_m_per_s; });
  constexpr std::size_t n_storms = 8;
  for (const Windy& one : windy) {
    if (story.storms.size() == n_storms) break;
    const bool is_near = std::any_of(story.storms.begin(), story.storms.end(),
                                     [&](const StormDay& storm) { return std::abs(storm.day - one.day) < 15; });
    if (is_near) continue;
    story.storms.push_back({one.day, 3.6 * gust_over_hourly_wind * one.wind_m_per_s, one.rain_mm});
  }
  std::sort(story.storms.begin(), story.storms.end(),
            [](const StormDay& a, const StormDay& b) { return a.day < b.day; });
  return story;
}

int modules_on(const Story& story, std::int64_t day, int recipe) {
  return static_cast<int>(std::count_if(story.modules.begin(), story.modules.end(), [&](const Module& module) {
    return module.made_day <= day && (recipe < 0 || module.recipe == recipe);
  }));
}

void add_making(const Story& story, EventTable& table) {
  for (std::size_t i = 0; i < story.modules.size(); ++i) {
    const Module& module = story.modules[i];
    const bool is_thin = module.recipe == 0;
    table.add({module.made_day, 10 * 60}, "made",
              {{"module", module.label},
               {"recipe", recipe_name(story, module.recipe)},
               {"duration_min", fmt::format("{:.0f}", (is_thin ? 70.0 : 110.0) * (0.8 + 0.4 * uniform("took", 0, i)))},
               {"cost", number_text((is_thin ? 6.5 : 14.0) * (0.85 + 0.3 * uniform("cost", 0, i)), 2)},
               {"currency", "EUR"},
               {"note", "invented"}});
    table.add({module.made_day, 10 * 60 + 1}, "made",
              {{"module", module.label}, {"part", "tie"}, {"item", "jute string"}, {"count", std::to_string(n_ties)}});
  }
}

void add_storms(const Story& story, EventTable& table) {
  for (const StormDay& storm : story.storms) {
    Fields fields = {{"gust_km_per_h", fmt::format("{:.0f}", storm.gust_km_per_h)}, {"note", "invented"}};
    if (storm.rain_mm >= 1.0) fields.emplace_back("rain_mm", fmt::format("{:.0f}", storm.rain_mm));
    table.add({storm.day, -1}, "storm", std::move(fields));
  }
}

void add_upkeep(const Story& story, EventTable& table) {
  const std::vector<std::int64_t> days = round_days(story);
  for (const Module& module : story.modules) {
    std::vector<Wearing> ties(n_ties);
    for (std::size_t i = 0; i < n_ties; ++i) {
      ties[i] = {module.made_day, drawn_life_years(tie_law, "tie " + module.label, module.made_day, i)};
    }
    Wearing cover{module.made_day, drawn_life_years(cover_law, "cover " + module.label, module.made_day, 0)};
    const bool has_cover = story.truth->recipes[static_cast<std::size_t>(module.recipe)].cover.has_value();
    for (const std::int64_t day : days) {
      if (day <= module.made_day) continue;
      int n_torn = 0;
      bool is_worn = false;
      for (std::size_t i = 0; i < n_ties; ++i) {
        const double worn = worn_years(story, ties[i], day, tie_law);
        if (worn > 0.85 * ties[i].life_years) is_worn = true;
        if (worn < ties[i].life_years) continue;
        ++n_torn;
        ties[i] = {day, drawn_life_years(tie_law, "tie " + module.label, day, i)};
      }
      if (n_torn > 0) {
        table.add(
            {day, 9 * 60}, "replaced",
            {{"module", module.label}, {"part", "tie"}, {"count", std::to_string(n_torn)}, {"condition", "torn"}});
      }
      if (has_cover && worn_years(story, cover, day, cover_law) >= cover.life_years) {
        table.add({day, 9 * 60 + 20}, "replaced",
                  {{"module", module.label}, {"part", "cover sheet"}, {"condition", "torn"}});
        cover = {day, drawn_life_years(cover_law, "cover " + module.label, day, 0)};
      }
      table.add({day, 10 * 60}, "looked_at", {{"module", module.label}, {"condition", is_worn ? "worn" : "good"}});
    }
  }
  for (const std::int64_t day : days) {
    table.add({day, 11 * 60}, "looked_at", {{"item", "outlets"}, {"condition", "good"}});
  }
  // Vigour and cover of a few modules, once a month in the second year.
  for (std::int64_t day = day_of("2025-03-15"); day < day_of(last_day_text); day += 30) {
    for (const char* label : {"A3", "A7", "A12", "C1", "C2", "D1"}) {
      const double vigour = 3.6 + 0.6 * normal(fmt::format("vigour {}", label), day, 0);
      const double cover = 55.0 + 0.05 * static_cast<double>(day - day_of("2025-03-15")) +
                           4.0 * normal(fmt::format("closed {}", label), day, 0);
      table.add({day, 18 * 60}, "looked_at",
                {{"module", label},
                 {"vigour", fmt::format("{:.0f}", std::clamp(std::round(vigour), 1.0, 5.0))},
                 {"cover_percent", fmt::format("{:.0f}", std::clamp(cover, 0.0, 100.0))}});
    }
  }
}

void add_watering(const Story& story, EventTable& table) {
  for (int recipe = 0; recipe < 2; ++recipe) {
    const std::string& name = recipe_name(story, recipe);
    for (std::int64_t day = day_of(first_day_text); day <= day_of(last_day_text); ++day) {
      const int n_modules = modules_on(story, day, recipe);
      if (n_modules == 0) continue;
      const TrueYear& year = year_of(story.years, day);
      double given_mm = 0.0;
      for (std::size_t i = 0; i < year.planted.stacks.size(); ++i) {
        const simulation::StackOrigin& origin = year.planted_origins[i];
        if (origin.recipe != recipe || !origin.is_middle) continue;
        given_mm = 0.0;
        for (int hour = 0; hour < climate::n_hours_in_day; ++hour) {
          given_mm += year.planted.stacks[i].watering_mm[hour_of_year(day, hour)];
        }
      }
      if (given_mm < 0.5) continue;
      const double litres = given_mm * n_modules * (1.0 + 0.08 * normal("water " + name, day, 0));
      table.add({day, 7 * 60 + static_cast<int>(std::floor(40.0 * uniform("early " + name, day, 0)))}, "watered",
                {{"recipe", name},
                 {"count", std::to_string(n_modules)},
                 {"water_l", fmt::format("{:.0f}", std::max(1.0, litres))},
                 {"duration_min", fmt::format("{:.0f}", 4.0 + 1.4 * n_modules)}});
    }
  }
}

void add_weighings(const Story& story, EventTable& table) {
  const auto weigh = [&](const std::string& label, const char* date, const char* wetness) {
    const auto module =
        std::find_if(story.modules.begin(), story.modules.end(), [&](const Module& one) { return one.label == label; });
    expects(module != story.modules.end() && module->made_day < day_of(date), "a module that is there");
    const design::Recipe& recipe = story.truth->recipes[static_cast<std::size_t>(module->recipe)];
    // As it is on the scale: without its spacers.
    const checks::ModuleWeights weights = checks::compute_weights(story.truth, module->recipe, design::Placed::flat);
    const bool is_soaked = std::string_view(wetness) == "soaked";
    const double kg_per_m2 = (is_soaked ? weights.soaked_kg_per_m2 : weights.drained_kg_per_m2).likely;
    const double module_m2 = 1e-6 * recipe.length_mm * recipe.width_mm;
    const double mass_kg = kg_per_m2 * module_m2 * module->mass_factor +
                           scale_noise_kg * normal("scale " + label + wetness, day_of(date), 0);
    table.add({day_of(date), 17 * 60}, "weighed",
              {{"module", label},
               {"recipe", recipe.name},
               {"wetness", wetness},
               {"mass_kg", number_text(mass_kg, 1)},
               {"note", "two people, a luggage scale under a board"}});
  };
  for (const char* label : {"A1", "A2", "A4", "A6", "A8"}) weigh(label, "2024-11-02", "drained");
  for (const char* label : {"A2", "A5", "A8"}) weigh(label, "2025-02-16", "soaked");
  weigh("C1", "2025-02-16", "drained");
}

void add_nursery(const Story& story, EventTable& table) {
  (void)story;
  struct Step {
    const char* date;
    const char* kind;
    int count;
  };
  struct Batch {
    const char* name;
    std::vector<Step> steps;
  };
  const std::vector<Batch> batches = {
      {"white stonecrop cuttings, spring 2024",
       {{"2024-03-05", "sown", 140},
        {"2024-04-02", "lost", 21},
        {"2024-04-20", "ready", 110},
        {"2024-04-27", "planted_out", 96},
        {"2024-05-03", "given_away", 14}}},
      {"thyme from seed, 2024",
       {{"2024-03-20", "sown", 200},
        {"2024-04-09", "germinated", 131},
        {"2024-05-14", "potted_on", 90},
        {"2024-06-11", "lost", 17},
        {"2024-09-20", "ready", 70},
        {"2024-10-05", "planted_out", 64}}},
      {"chives from division, 2024",
       {{"2024-09-28", "sown", 30},
        {"2024-10-30", "lost", 2},
        {"2025-02-20", "ready", 28},
        {"2025-03-08", "planted_out", 24}}},
      {"carthusian pinks from seed, 2025",
       {{"2025-03-02", "sown", 150},
        {"2025-03-19", "germinated", 88},
        {"2025-04-27", "potted_on", 75},
        {"2025-07-15", "lost", 19},
        {"2025-09-25", "ready", 52},
        {"2025-10-11", "planted_out", 40}}},
      {"holm oaks from acorns, autumn 2025",
       {{"2025-11-08", "sown", 120}, {"2026-01-10", "lost", 6}, {"2026-02-21", "germinated", 47}}},
  };
  for (const Batch& batch : batches) {
    for (const Step& step : batch.steps) {
      table.add({day_of(step.date), -1}, step.kind, {{"batch", batch.name}, {"count", std::to_string(step.count)}});
    }
  }
  table.add({day_of("2024-03-02"), -1}, "stock_in",
            {{"item", "horticultural mineral wool"},
             {"volume_l", "1100"},
             {"cost", "0"},
             {"currency", "EUR"},
             {"note", "offcuts from a greenhouse, given"}});
  table.add({day_of("2024-03-06"), -1}, "stock_in",
            {{"item", "light compost-perlite-coir mix"}, {"volume_l", "600"}, {"cost", "51"}, {"currency", "EUR"}});
  table.add({day_of("2024-03-06"), -1}, "stock_in",
            {{"item", "jute string"}, {"length_m", "200"}, {"cost", "9.5"}, {"currency", "EUR"}});
  table.add({day_of("2024-09-14"), -1}, "stock_in",
            {{"item", "light compost-perlite-coir mix"}, {"volume_l", "500"}, {"cost", "43"}, {"currency", "EUR"}});
}

}  // namespace houseleek::invent
