// Moments as people write them: plain ones, hours that clocks leap over or show twice, offsets, what is no date.
#include "base/civil_time.hpp"

#include <gtest/gtest.h>

namespace houseleek::tests {
namespace {

CivilMoment read(const std::string& text, const std::string& zone) {
  const Result<CivilMoment> moment = moment_from_text(text, zone, "at");
  if (!moment) {
    ADD_FAILURE() << text << ": " << moment.error().front().message;
    return {};
  }
  return moment.value();
}

Issue refused(const std::string& text, const std::string& zone) {
  const Result<CivilMoment> moment = moment_from_text(text, zone, "at");
  if (moment) {
    ADD_FAILURE() << text << " was read";
    return {};
  }
  EXPECT_EQ(moment.error().size(), 1U);
  EXPECT_EQ(moment.error().front().path, "at");
  EXPECT_EQ(moment.error().front().value, text);
  return moment.error().front();
}

// Seconds by `date -u -d ... +%s` (GNU coreutils).
TEST(CivilTime, SummerAndWinterOfAPlace) {
  EXPECT_EQ(read("2026-07-03T08:15", "Europe/Athens"), (CivilMoment{1783055700, 10800, true}));
  EXPECT_EQ(read("2026-01-03 08:15:30", "Europe/Athens"), (CivilMoment{1767420930, 7200, true}));
  EXPECT_EQ(read("2026-07-03T05:15Z", "Europe/Athens"), (CivilMoment{1783055700, 10800, true}));
  EXPECT_EQ(read("2026-07-03T08:15+03:00", "Europe/Athens"), (CivilMoment{1783055700, 10800, true}));
  EXPECT_EQ(read("2026-07-03T08:15", "America/St_Johns"), (CivilMoment{1783075500, -9000, true}));
}

TEST(CivilTime, ADayAloneIsItsNoonAndSaysSo) {
  const CivilMoment day = read("2026-07-03", "Europe/Athens");
  EXPECT_EQ(day, (CivilMoment{1783069200, 10800, false}));
  EXPECT_EQ(text_from_moment(day), "2026-07-03");
}

TEST(CivilTime, TextsReadAgainGiveTheSameMoment) {
  for (const char* zone : {"Europe/Athens", "America/St_Johns", "Australia/Lord_Howe", "Asia/Kathmandu", "UTC"}) {
    for (std::int64_t utc_s = 1767225600; utc_s < 1767225600 + 370 * n_seconds_in_civil_day; utc_s += 5400 + 7) {
      const CivilMoment moment = moment_at(utc_s, zone);
      ASSERT_EQ(read(text_from_moment(moment), zone), moment) << zone << " " << utc_s;
    }
  }
}

TEST(CivilTime, AnHourThatClocksLeapOverIsRefused) {
  const Issue issue = refused("2026-03-29T03:30", "Europe/Athens");
  EXPECT_EQ(issue.code, IssueCode::inconsistent);
  EXPECT_EQ(issue.message,
            "at is \"2026-03-29T03:30\"; clocks of Europe/Athens were put forward over that time and never showed it");
  EXPECT_EQ(read("2026-03-29T02:59", "Europe/Athens").offset_s, 7200);
  EXPECT_EQ(read("2026-03-29T04:00", "Europe/Athens").offset_s, 10800);
}

TEST(CivilTime, AnHourThatClocksShowTwiceWantsItsOffset) {
  const Issue issue = refused("2026-10-25T03:30", "Europe/Athens");
  EXPECT_EQ(issue.message, "at is \"2026-10-25T03:30\"; clocks of Europe/Athens showed that time twice");
  EXPECT_EQ(issue.hint, "write 2026-10-25T03:30+03:00 for the first time, 2026-10-25T03:30+02:00 for the second");
  const CivilMoment first = read("2026-10-25T03:30+03:00", "Europe/Athens");
  const CivilMoment second = read("2026-10-25T03:30+02:00", "Europe/Athens");
  EXPECT_EQ(second.utc_s - first.utc_s, 3600);
  EXPECT_EQ(first.offset_s, 10800);
}

TEST(CivilTime, AnOffsetThatThePlaceDidNotKeepIsRefused) {
  const Issue issue = refused("2026-07-03T08:15+02:00", "Europe/Athens");
  EXPECT_EQ(issue.message, "at is \"2026-07-03T08:15+02:00\"; clocks of Europe/Athens did not keep that offset then");
  EXPECT_EQ(issue.hint, "leave the offset away, or write 2026-07-03T09:15+03:00");
}

TEST(CivilTime, WhatIsNoDateIsRefused) {
  for (const char* text : {"", "yesterday", "2026-02-29", "2026-13-01", "2026-1-1", "03.07.2026", "2026-07-03T24:00",
                           "2026-07-03T8:15", "2026-07-03T08:60", "2026-07-03T08:15 ", "2026-07-03T08:15+3",
                           "1899-12-31", "2200-01-01", "2026-07-03X08:15"}) {
    EXPECT_EQ(refused(text, "Europe/Athens").code, IssueCode::wrong_type) << text;
  }
  EXPECT_EQ(read("2024-02-29", "Europe/Athens").utc_s, 1709200800);
}

TEST(CivilTime, DaysCountFrom1970) {
  EXPECT_EQ(day_from_text("1970-01-01"), 0);
  EXPECT_EQ(day_from_text("2026-07-03"), 20637);
  EXPECT_EQ(day_from_text("2026-07-03T08:15"), std::nullopt);
  EXPECT_EQ(text_from_day(20637), "2026-07-03");
  EXPECT_EQ(text_from_day(-1), "1969-12-31");
}

}  // namespace
}  // namespace houseleek::tests
