// What `houseleek week` answers, as plain data: a list to be ticked off.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "results/figure.hpp"

namespace houseleek::report {

enum class WeekKind { water, storm, look, lift, cover, pot_on, read_off, feed, buy };

struct WeekItem {
  std::string id;  // the same for the same thing, week after week
  WeekKind kind = WeekKind::look;
  int urgency = 2;  // 0 today, 1 this week, 2 when there is time
  std::string due;  // a day
  std::string what;
  std::string where;
  std::string why;         // one sentence
  results::Figure figure;  // how much, with its range
  std::string unit;
  std::string caution;      // stands beside it; may be empty
  std::string log_command;  // ticks it off
};

struct WeekAnswer {
  std::string file;
  std::string design_name;
  bool is_invented = false;
  std::string engine_version;
  std::uint64_t seed = 0;
  std::string input_hash;
  std::string first_day;
  std::string last_day;
  bool has_logbook = false;
  results::Figure water_minutes;
  results::Figure water_cans;
  double can_l = 10.0;
  std::vector<WeekItem> items;        // what is to be done first stands first
  std::vector<std::string> can_wait;  // what needs nothing this week, in a sentence each
  std::vector<std::string> missing;   // what would make the list better, and how to say it
  std::string statement;
};

[[nodiscard]] std::string_view week_kind_word(WeekKind kind);

}  // namespace houseleek::report
