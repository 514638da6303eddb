// How plants are raised: what comes up or roots, what lives until it can be planted out, and how long each takes.
#include "catalogue/raising.hpp"

#include <array>

#include "base/contract.hpp"
#include "catalogue/columns.hpp"

namespace houseleek::catalogue {
namespace {

constexpr int months_in_year = 12;

constexpr NumberRule share(std::string_view key) {
  return {.key = key, .least = 0, .most = 1, .unit = "share", .is_least_open = true};
}
constexpr NumberRule days(std::string_view key) { return {.key = key, .least = 0, .most = 2000, .unit = "days"}; }

constexpr std::array all_raising_properties{
    RaisingProperty{
        .rule = share("taking_frac"), .words = "share that comes up or roots", .required = &Raising::taking_frac},
    RaisingProperty{.rule = share("keeping_frac"),
                    .words = "share of those that lives until ready",
                    .required = &Raising::keeping_frac},
    RaisingProperty{.rule = days("taken_after_days"),
                    .words = "days until it is up or rooted",
                    .required = &Raising::taken_after_days},
    RaisingProperty{.rule = days("potted_on_after_days"),
                    .words = "days until it is potted on",
                    .optional = &Raising::potted_on_after_days},
    RaisingProperty{.rule = days("ready_after_days"),
                    .words = "days until it can be planted out",
                    .required = &Raising::ready_after_days},
};

void read_months(FieldReader& reader, const TableView& table, Raising& raising) {
  const NumberRule rule{
      .key = "begin_months", .least = 1, .most = 12, .hint = "the first and the last month north of the equator"};
  if (!has_field(reader, table, rule.key, rule.hint)) return;
  const std::optional<std::vector<double>> months = read_numbers(reader, table, rule, 2);
  if (!months) return;
  raising.first_month = static_cast<int>(months->front());
  raising.last_month = static_cast<int>(months->back());
}

/// Days follow one another: up, potted on, ready.
void check_order(FieldReader& reader, const TableView& table, const Raising& raising) {
  const auto refuse = [&](std::string_view key, std::string_view before, double least_days) {
    const std::string path = path_from(table, key);
    add_issue(reader, IssueCode::inconsistent, member_or_table(table, key), path,
              fmt::format("at least {}", least_days), fmt::format("{} is before {}", path, before),
              "days count from the sowing");
  };
  const double taken = raising.taken_after_days.likely;
  const double potted = raising.potted_on_after_days ? raising.potted_on_after_days->likely : taken;
  if (potted < taken) refuse("potted_on_after_days", "taken_after_days", taken);
  if (raising.ready_after_days.likely < potted) {
    refuse("ready_after_days", raising.potted_on_after_days ? "potted_on_after_days" : "taken_after_days", potted);
  }
}

}  // namespace

std::span<const RaisingProperty> raising_properties() { return all_raising_properties; }

const Spread* find_property(const Raising& raising, const RaisingProperty& property) {
  if (property.required != nullptr) return &(raising.*property.required);
  const std::optional<Spread>& figure = raising.*property.optional;
  return figure ? &*figure : nullptr;
}

Raising read_raising(FieldReader& reader, const TableView& table, const FigureContext& context,
                     std::span<const PlantGroup> groups) {
  check_keys(reader, table, raising_keys());
  Raising raising;
  if (has_field(reader, table, "way", "add way = \"seed\" or another of raised_from")) {
    raising.way =
        read_choice<RaisedFrom>(reader, table, "way", raised_from_words).value_or(raised_from_words[0].second);
  }
  std::vector<std::string> known;
  for (const PlantGroup& group : groups) known.push_back(group.name);
  for (const ListedWord& one : read_texts(reader, table, "groups")) {
    if (std::find(known.begin(), known.end(), one.word) == known.end()) {
      add_unknown_name(reader, *one.node, one.path, "group of plants", known);
    }
    raising.groups.push_back(one.word);
  }
  const std::size_t n_issues = reader.issues.size();
  for (const RaisingProperty& property : all_raising_properties) {
    if (property.required != nullptr) {
      raising.*property.required = read_required_spread(reader, table, property.rule, context);
    } else {
      raising.*property.optional = read_spread(reader, table, property.rule, context);
    }
  }
  if (reader.issues.size() == n_issues) check_order(reader, table, raising);
  read_months(reader, table, raising);
  return raising;
}

std::string_view text_from_way(RaisedFrom way) {
  for (const auto& [word, value] : raised_from_words) {
    if (value == way) return word;
  }
  expects(false, "a way of the list");
  return {};
}

const Raising* find_raising(std::span<const Raising> all, RaisedFrom way, std::string_view group) {
  const Raising* for_all = nullptr;
  for (const Raising& one : all) {
    if (one.way != way) continue;
    if (one.groups.empty()) for_all = &one;
    if (std::find(one.groups.begin(), one.groups.end(), group) != one.groups.end()) return &one;
  }
  return for_all;
}

bool is_month_within(int first_month, int last_month, int month, Hemisphere hemisphere) {
  expects(month >= 1 && month <= months_in_year, "a month from 1 to 12");
  if (first_month == 0) return false;
  const int northern = hemisphere == Hemisphere::north ? month : (month + months_in_year / 2 - 1) % months_in_year + 1;
  if (first_month <= last_month) return northern >= first_month && northern <= last_month;
  return northern >= first_month || northern <= last_month;
}

bool begins_in(const Raising& raising, int month, Hemisphere hemisphere) {
  return is_month_within(raising.first_month, raising.last_month, month, hemisphere);
}

}  // namespace houseleek::catalogue
