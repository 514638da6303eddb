// Rows of a project: what goes in comes out, nothing is changed or taken out, corrections take a row's place.
#include "store/records.hpp"

#include <gtest/gtest.h>

#include <set>

#include "base/contract.hpp"
#include "logbook/event_fields.hpp"
#include "store/project_files.hpp"
#include "support/temporary_folder.hpp"

namespace houseleek::tests {
namespace {

TEST(Records, RevisionsKeepEveryByte) {
  const TemporaryFolder folder;
  const std::string path = folder.path() + "/a.houseleek";
  const std::string first = "format = 1\r\n# caf\xC3\xA9\n\n\ttail without end";
  const std::string second = first + "\n";
  {
    const store::Project project = new_project_at(path);
    EXPECT_EQ(store::read_newest_revision(project), std::nullopt);
    EXPECT_EQ(store::add_revision(project, {first, "as found", 1000}), 1);
    EXPECT_EQ(store::add_revision(project, {second, "", 2000}), 2);
  }
  const store::Project project = project_at(path);
  const std::vector<store::Revision> all = store::read_revisions(project);
  EXPECT_EQ(all, (std::vector<store::Revision>{{1, 1000, first, "as found"}, {2, 2000, second, ""}}));
  EXPECT_EQ(store::read_newest_revision(project), all.back());
  EXPECT_EQ(store::read_revision(project, 1), all.front());
  EXPECT_EQ(store::read_revision(project, 3), std::nullopt);
}

TEST(Records, EveryFieldOfAnEventComesBack) {
  const TemporaryFolder folder;
  const std::string path = folder.path() + "/a.houseleek";
  logbook::Event full = watering(6.5);
  double number = 0.1;
  for (const logbook::TextField& field : logbook::text_fields())
    full.*field.member = "text of " + std::string(field.key);
  for (const logbook::NumberField& field : logbook::number_fields()) full.*field.member = (number += 0.1);
  for (const logbook::DayField& field : logbook::day_fields())
    full.*field.member = static_cast<std::int64_t>(20000.0 + number);
  logbook::Event day = watering(1.0);
  day.at.is_time_known = false;
  {
    const store::Project project = new_project_at(path);
    EXPECT_EQ(store::add_event(project, {full, std::nullopt, 10}), 1);
    EXPECT_EQ(store::add_event(project, {day, std::nullopt, 20}), 2);
    EXPECT_EQ(store::add_event(project, {watering(7.0), 1, 30}), 3);
  }
  const std::vector<logbook::EventRecord> expected = {{1, 10, std::nullopt, 3, full},
                                                      {2, 20, std::nullopt, std::nullopt, day},
                                                      {3, 30, 1, std::nullopt, watering(7.0)}};
  EXPECT_EQ(store::read_events(project_at(path)), expected);
}

TEST(Records, TheTableHasTheColumnsOfAnEvent) {
  const TemporaryFolder folder;
  const store::Project project = new_project_at(folder.path() + "/a.houseleek");
  std::set<std::string> columns;
  store::Statement rows(project.database(), "SELECT name FROM pragma_table_info('event')");
  while (rows.step()) columns.insert(rows.text(0));
  std::set<std::string> expected = {"event",       "noted_utc_s",   "supersedes", "kind",  "at_utc_s",
                                    "at_offset_s", "is_time_known", "zone",       "sha256"};
  for (const logbook::TextField& field : logbook::text_fields()) expected.emplace(field.key);
  for (const logbook::NumberField& field : logbook::number_fields()) expected.emplace(field.key);
  for (const logbook::DayField& field : logbook::day_fields()) expected.emplace(field.key);
  EXPECT_EQ(columns, expected);
}

TEST(Records, ResultsKeepWhatMadeThem) {
  const TemporaryFolder folder;
  const store::Project project = new_project_at(folder.path() + "/a.houseleek");
  (void)store::add_revision(project, {"format = 1", "", 1});
  const store::StoredResult result = {1,        1,   99, "study", "0.1.0", "{\"n_years\":20}", "18446744073709551615",
                                      "abcdef", "{}"};
  EXPECT_EQ(store::add_result(project, result), 1);
  EXPECT_EQ(store::read_results(project), std::vector<store::StoredResult>{result});
  store::StoredResult orphan = result;
  orphan.revision = 2;
  EXPECT_THROW((void)store::add_result(project, orphan), ContractViolation);
  EXPECT_EQ(store::read_results(project).size(), 1U);
}

TEST(Records, NothingIsChangedOrTakenOut) {
  const TemporaryFolder folder;
  const store::Project project = new_project_at(folder.path() + "/a.houseleek");
  (void)store::add_revision(project, {"format = 1", "", 1});
  (void)store::add_event(project, {watering(1.0), std::nullopt, 1});
  (void)store::add_result(project, {0, 1, 1, "study", "0.1.0", "{}", "1", "abc", "{}"});
  project.database().run("INSERT INTO sensor VALUES (1, 'a', 'temperature_c')");
  project.database().run("INSERT INTO reading_file VALUES (1, 'a.csv', 1)");
  project.database().run("INSERT INTO reading VALUES (1, 1, 20.0, 1)");
  for (const std::string table : {"revision", "event", "result", "reading"}) {
    EXPECT_THROW(project.database().run("DELETE FROM " + table), ContractViolation) << table;
  }
  EXPECT_THROW(project.database().run("UPDATE revision SET note = 'x'"), ContractViolation);
  EXPECT_THROW(project.database().run("UPDATE event SET water_l = 2"), ContractViolation);
  EXPECT_THROW(project.database().run("UPDATE result SET seed = '2'"), ContractViolation);
  EXPECT_THROW(project.database().run("UPDATE reading SET value = 2"), ContractViolation);
}

TEST(Records, AnEventIsSupersededOnceAndByALaterOne) {
  const TemporaryFolder folder;
  const store::Project project = new_project_at(folder.path() + "/a.houseleek");
  (void)store::add_event(project, {watering(1.0), std::nullopt, 1});
  (void)store::add_event(project, {watering(2.0), 1, 2});
  EXPECT_THROW((void)store::add_event(project, {watering(3.0), 1, 3}), store::StoreError);
  EXPECT_THROW((void)store::add_event(project, {watering(3.0), 7, 3}), ContractViolation);
  EXPECT_THROW((void)store::add_event(project, {watering(3.0), 3, 3}), ContractViolation);
  EXPECT_EQ(store::read_events(project).size(), 2U);
}

TEST(Records, TablesAreStrict) {
  const TemporaryFolder folder;
  const store::Project project = new_project_at(folder.path() + "/a.houseleek");
  store::Statement rows(project.database(),
                        "SELECT name FROM pragma_table_list WHERE schema = 'main' AND name NOT LIKE 'sqlite_%' AND "
                        "type = 'table' AND strict = 0");
  EXPECT_FALSE(rows.step()) << rows.text(0);
}

}  // namespace
}  // namespace houseleek::tests
