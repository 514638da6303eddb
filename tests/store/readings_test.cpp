// Readings in bulk: all of a file or nothing, what is known, and a reading that turned on the disk.
#include "store/readings.hpp"

#include <gtest/gtest.h>

#include "store/project_files.hpp"
#include "support/temporary_folder.hpp"

namespace houseleek::tests {
namespace {

TEST(Readings, AFileIsInWholeOrNotAtAll) {
  const TemporaryFolder folder;
  const store::Project project = new_project_at(folder.path() + "/a.houseleek");
  {
    store::ReadingWriter writer(project, "cut.csv", 1);
    const std::int64_t sensor = *writer.sensor("south", "temperature_c");
    for (int i = 0; i < 1000; ++i) EXPECT_EQ(writer.add(sensor, 60 * i, i), store::Added::added);
  }
  EXPECT_EQ(store::read_readings(project, [](const store::ReadingRow&) {}), 0);
  store::ReadingWriter writer(project, "whole.csv", 1);
  const std::int64_t sensor = *writer.sensor("south", "temperature_c");
  // Backwards and forwards, so that both ways of writing are gone.
  for (int i = 499; i >= 0; --i) EXPECT_EQ(writer.add(sensor, 60 * i, i), store::Added::added);
  for (int i = 500; i < 1000; ++i) EXPECT_EQ(writer.add(sensor, 60 * i, i), store::Added::added);
  EXPECT_EQ(writer.add(sensor, 60 * 999, 999.0), store::Added::known_before);
  EXPECT_EQ(writer.add(sensor, 60 * 10, 10.0), store::Added::known_before);
  EXPECT_EQ(writer.add(sensor, 60 * 10, 11.0), store::Added::other_value);
  EXPECT_EQ(writer.sensor("south", "humidity_percent"), std::nullopt);
  const store::ReadingCounts counts = writer.commit();
  EXPECT_EQ(counts.n_added, 1000);
  EXPECT_EQ(counts.n_known_before, 2);
  std::int64_t next = 0;
  EXPECT_EQ(store::read_readings(project,
                                 [&next](const store::ReadingRow& row) {
                                   EXPECT_EQ(row.sensor, "south");
                                   EXPECT_EQ(row.at_utc_s, 60 * next);
                                   EXPECT_EQ(row.value, static_cast<double>(next));
                                   ++next;
                                 }),
            1000);
}

TEST(Readings, ATurnedByteIsSeen) {
  const TemporaryFolder folder;
  const std::string path = folder.path() + "/a.houseleek";
  {
    const store::Project project = new_project_at(path);
    store::ReadingWriter writer(project, "a.csv", 1);
    const std::int64_t sensor = *writer.sensor("south", "temperature_c");
    for (int i = 0; i < 100; ++i) (void)writer.add(sensor, 60 * i, 21.37 + i);
    (void)writer.commit();
  }
  // 71.37, as SQLite writes it: eight bytes, the greatest first.
  const std::string value("\x40\x51\xD7\xAE\x14\x7A\xE1\x48", 8);
  std::string bytes = bytes_of(path);
  const std::size_t at = bytes.find(value);
  ASSERT_NE(at, std::string::npos);
  bytes[at + 3] = static_cast<char>(bytes[at + 3] ^ 1);
  const store::Project project = project_at(folder.write("turned.houseleek", bytes));
  try {
    (void)store::read_readings(project, [](const store::ReadingRow&) {});
    ADD_FAILURE() << "nothing was said";
  } catch (const store::StoreError& error) {
    EXPECT_NE(std::string(error.what()).find("readings are not as they were written (100 of 100)"), std::string::npos)
        << error.what();
  }
}

}  // namespace
}  // namespace houseleek::tests
