// Events from words: every kind with what it wants, every problem at once, and the table of fields against itself.
#include "logbook/read_event.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "logbook/event_fields.hpp"
#include "logbook/hand_readings.hpp"

namespace houseleek::logbook {
namespace {

// 2026-07-03 12:00 in Athens.
const NotedWhere athens = {"Europe/Athens", 1783069200, "EUR"};

using Fields = std::vector<std::pair<std::string, std::string>>;

std::string messages(const Issues& issues) {
  std::string text;
  for (const Issue& issue : issues) text += issue.path + ": " + issue.message + "\n";
  return text;
}

TEST(ReadEvent, WateringKeepsWhatWasSaid) {
  const Result<Event> read = read_event(
      {"watered", {{"module", "A1"}, {"water_l", "6.5"}, {"at", "2026-07-03T08:15"}, {"who", "M."}}}, athens);
  ASSERT_TRUE(read) << messages(read.error());
  Event expected;
  expected.kind = EventKind::watered;
  expected.at = {1783055700, 10800, true};
  expected.zone = "Europe/Athens";
  expected.module = "A1";
  expected.water_l = 6.5;
  expected.who = "M.";
  EXPECT_EQ(read.value(), expected);
  EXPECT_EQ(fields_of(read.value()), (Fields{{"at", "2026-07-03T08:15+03:00"},
                                             {"zone", "Europe/Athens"},
                                             {"module", "A1"},
                                             {"who", "M."},
                                             {"water_l", "6.5"}}));
}

TEST(ReadEvent, WithoutATimeItIsNow) {
  const Result<Event> read = read_event({"noted", {{"note", "first bees"}}}, athens);
  ASSERT_TRUE(read);
  EXPECT_EQ(read.value().at, (CivilMoment{1783069200, 10800, true}));
}

TEST(ReadEvent, ACostTakesTheCurrencyOfTheDesign) {
  const Fields bought = {{"item", "coir"}, {"mass_kg", "5"}, {"cost", "12.40"}};
  const Result<Event> read = read_event({"stock_in", bought}, athens);
  ASSERT_TRUE(read);
  EXPECT_EQ(read.value().currency, "EUR");
  const Result<Event> without = read_event({"stock_in", bought}, {"Europe/Athens", 1783069200, ""});
  ASSERT_FALSE(without);
  EXPECT_EQ(messages(without.error()), "currency: a cost wants its currency\n");
}

TEST(ReadEvent, AllProblemsComeAtOnce) {
  const Result<Event> read = read_event({"weighed",
                                         {{"mass_kg", "-3"},
                                          {"wetness", "damp"},
                                          {"colour", "red"},
                                          {"water_l", "5"},
                                          {"at", "2027-07-03"},
                                          {"who", ""}}},
                                        athens);
  ASSERT_FALSE(read);
  EXPECT_EQ(messages(read.error()),
            "mass_kg: mass_kg is -3; it must be from 0 to 100000 kg\n"
            "wetness: wetness \"damp\" is not known\n"
            "field: field \"colour\" is not known\n"
            "water_l: water_l does not belong to an event \"weighed\"\n"
            "at: at is 2027-07-03, which is still to come; now it is 2026-07-03T12:00+03:00\n"
            "who: who is empty\n"
            "module: an event \"weighed\" wants module or square or recipe or container or item\n");
}

TEST(ReadEvent, ProblemsOneByOne) {
  struct Case {
    EventWords words;
    std::string sentence;
  };
  for (const Case& one : std::vector<Case>{
           {{"watred", {}}, "kind: kind \"watred\" is not known\n"},
           {{"watered", {{"water_l", "six"}}}, "water_l: water_l is \"six\"; it must be a number\n"},
           {{"watered", {{"water_l", "nan"}}}, "water_l: water_l is \"nan\"; it must be a number\n"},
           {{"watered", {{"water_l", "1"}, {"water_l", "2"}}}, "water_l: water_l is given twice\n"},
           {{"sown", {{"batch", "b"}, {"count", "1.5"}}},
            "count: count is 1.5; it must be from 0 to 1000000, a whole number\n"},
           {{"noted", {{"note", "a\nb"}}}, "note: note holds a control character, or bytes that are no UTF-8\n"},
           {{"noted", {{"note", "\xFF"}}}, "note: note holds a control character, or bytes that are no UTF-8\n"},
           {{"noted", {{"note", std::string(4001, 'a')}}}, "note: note has 4001 bytes; it may have at most 4000\n"},
           {{"billed", {{"item", "gas"}, {"first_day", "2026-02-01"}, {"last_day", "2026-01-31"}, {"energy_kwh", "9"}}},
            "last_day: last_day 2026-01-31 is before first_day 2026-02-01\n"},
           {{"billed", {{"item", "gas"}, {"first_day", "1.2.2026"}, {"last_day", "2026-01-31"}, {"energy_kwh", "9"}}},
            "first_day: first_day is \"1.2.2026\"; it must be a date\n"},
           {{"stock_in", {{"item", "net"}, {"area_m2", "4"}, {"cost", "3"}, {"currency", "euro"}}},
            "currency: currency is \"euro\"; it must be three capital letters\n"}}) {
    const Result<Event> read = read_event(one.words, athens);
    ASSERT_FALSE(read) << one.sentence;
    EXPECT_EQ(messages(read.error()), one.sentence);
  }
}

/// A text that a field takes.
std::string sample_of(std::string_view key) {
  for (const TextField& field : text_fields()) {
    if (field.key != key) continue;
    if (key == "currency") return "EUR";
    const std::vector<std::string_view> choices = words_of(field.choices);
    return choices.empty() ? "one" : std::string(choices.back());
  }
  return key.ends_with("_day") ? "2026-06-01" : "3";
}

TEST(EventFields, EveryKindTakesAllItMayHaveAndMissesAllItWants) {
  for (const KindRule& rule : kind_rules()) {
    EventWords full = {std::string(rule.word), {}};
    std::set<std::string> keys;
    for (const std::string_view list : {rule.wants, rule.may_have}) {
      for (const std::string_view word : words_of(list)) {
        for (const std::string_view key : words_of(word, '|')) keys.emplace(key);
      }
    }
    for (const std::string& key : keys) full.fields.emplace_back(key, sample_of(key));
    const Result<Event> read = read_event(full, athens);
    ASSERT_TRUE(read) << rule.word << "\n" << messages(read.error());
    EXPECT_EQ(read.value().kind, rule.kind);
    EXPECT_EQ(fields_of(read.value()).size(), keys.size() + 2 + (keys.contains("cost") && !keys.contains("currency")))
        << rule.word;
    for (const std::string_view wanted : words_of(rule.wants)) {
      EventWords less = full;
      const std::vector<std::string_view> any = words_of(wanted, '|');
      std::erase_if(less.fields,
                    [&any](const auto& field) { return std::find(any.begin(), any.end(), field.first) != any.end(); });
      const Result<Event> missing = read_event(less, athens);
      ASSERT_FALSE(missing) << rule.word << " without " << wanted;
      EXPECT_EQ(missing.error().front().code, IssueCode::missing_field);
    }
  }
}

TEST(EventFields, NoFieldIsThereForNobody) {
  const auto is_used = [](std::string_view key) {
    const auto rules = kind_rules();
    return std::any_of(rules.begin(), rules.end(), [key](const KindRule& rule) { return has_use_for(rule, key); });
  };
  for (const TextField& field : text_fields()) EXPECT_TRUE(is_used(field.key)) << field.key;
  for (const NumberField& field : number_fields()) EXPECT_TRUE(is_used(field.key)) << field.key;
  for (const DayField& field : day_fields()) EXPECT_TRUE(is_used(field.key)) << field.key;
}

TEST(HandReadings, AreInStandardTimeAndWithoutWhatWasCorrected) {
  const auto record = [](std::int64_t number, const Fields& fields) {
    const Result<Event> event = read_event({"read_off", fields}, athens);
    EXPECT_TRUE(event) << messages(event.error());
    EventRecord made;
    made.number = number;
    made.event = event.value();
    return made;
  };
  std::vector<EventRecord> records = {
      record(1, {{"room", "kitchen"}, {"temperature_c", "29.5"}, {"at", "2026-07-02T00:30"}}),
      record(2, {{"room", "kitchen"}, {"temperature_c", "92"}, {"at", "2026-07-01T15:00"}}),
      record(3, {{"room", "kitchen"}, {"temperature_c", "29"}, {"at", "2026-07-01T15:00"}}),
      record(4, {{"room", "kitchen"}, {"temperature_c", "18"}, {"at", "2026-01-01T15:00"}}),
      record(5, {{"module", "A1"}, {"temperature_c", "25"}, {"at", "2026-07-01"}})};
  records[1].superseded_by = 3;
  // One o'clock less in summer: 00:30 is 23:30 of the day before.
  EXPECT_EQ(hand_readings_from(records),
            (std::vector<HandReading>{
                {"kitchen", 20454, 15.0, 18.0}, {"kitchen", 20635, 14.0, 29.0}, {"kitchen", 20635, 23.5, 29.5}}));
}

}  // namespace
}  // namespace houseleek::logbook
