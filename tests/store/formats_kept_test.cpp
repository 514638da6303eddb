// A project of every format that was ever written opens, and reads the same for ever.
#include <gtest/gtest.h>

#include <filesystem>
#include <sstream>

#include "base/civil_time.hpp"
#include "report/logbook_text.hpp"
#include "store/project_files.hpp"
#include "store/readings.hpp"
#include "support/temporary_folder.hpp"

namespace houseleek::tests {
namespace {

std::string kept(const std::string& name) { return std::string(HOUSELEEK_SOURCE_DIR) + "/tests/data/projects/" + name; }

/// A copy, for opening may bring a file up to date.
std::string copy_of(const TemporaryFolder& folder, const std::string& name) {
  const std::string path = folder.path() + "/" + name;
  std::filesystem::copy_file(kept(name), path);
  return path;
}

/// Columns of the table as it was then, by name: a later version may have more.
std::vector<std::vector<std::string>> columns_of(const std::string& csv, const std::vector<std::string>& names) {
  const auto fields_of = [](const std::string& line) {
    std::vector<std::string> fields(1);
    bool is_inside = false;
    for (const char c : line) {
      if (c == '"') {
        is_inside = !is_inside;
      } else if (c == ',' && !is_inside) {
        fields.emplace_back();
      } else {
        fields.back() += c;
      }
    }
    return fields;
  };
  std::istringstream lines(csv);
  std::string line;
  std::getline(lines, line);
  const std::vector<std::string> head = fields_of(line);
  std::vector<std::vector<std::string>> rows;
  while (std::getline(lines, line)) {
    const std::vector<std::string> fields = fields_of(line);
    EXPECT_EQ(fields.size(), head.size());
    std::vector<std::string> row;
    for (const std::string& name : names) {
      const auto at = std::find(head.begin(), head.end(), name) - head.begin();
      row.push_back(at < static_cast<std::ptrdiff_t>(fields.size()) ? fields[static_cast<std::size_t>(at)] : "");
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

std::vector<std::string> head_of(const std::string& csv) {
  std::istringstream line(csv.substr(0, csv.find('\n')));
  std::vector<std::string> names;
  for (std::string name; std::getline(line, name, ',');) names.push_back(name);
  return names;
}

TEST(FormatsKept, OneOfEveryFormatIsKept) {
  for (std::size_t format = 1; format <= store::formats().size(); ++format) {
    EXPECT_TRUE(std::filesystem::exists(kept("format-" + std::to_string(format) + ".houseleek"))) << format;
  }
}

TEST(FormatsKept, FormatOneReadsTheSameForEver) {
  const TemporaryFolder folder;
  const store::Project project = project_at(copy_of(folder, "format-1.houseleek"));
  const std::string expected = bytes_of(kept("format-1.events.csv"));
  const std::vector<std::string> names = head_of(expected);
  ASSERT_GT(names.size(), 40U);
  const std::vector<logbook::EventRecord> events = store::read_events(project);
  ASSERT_EQ(events.size(), 9U);
  EXPECT_EQ(columns_of(report::csv_from(events), names), columns_of(expected, names));
  // By value, so that reader and writer of tables cannot err together.
  EXPECT_EQ(events[1].superseded_by, 3);
  EXPECT_EQ(events[2].event.water_l, 6.5);
  EXPECT_EQ(text_from_moment(events[2].event.at), "2024-07-03T08:15+02:00");
  EXPECT_EQ(events[5].superseded_by, 9);
  EXPECT_EQ(events[6].event.energy_kwh, 412.0);
  EXPECT_EQ(events[7].event.who, "nobody in particular");
  const std::optional<store::Revision> design = store::read_newest_revision(project);
  ASSERT_TRUE(design.has_value());
  EXPECT_EQ(design->toml_text, bytes_of(kept("format-1.toml")));
  EXPECT_EQ(design->note, "as found");
  std::string readings = "sensor,quantity,at,value\n";
  (void)store::read_readings(project, [&](const store::ReadingRow& row) {
    std::ostringstream line;
    line << row.sensor << ',' << row.quantity << ',' << text_from_utc(row.at_utc_s) << ',' << row.value << '\n';
    readings += line.str();
  });
  EXPECT_EQ(readings, bytes_of(kept("format-1.readings.csv")));
}

TEST(FormatsKept, AndIsWrittenTo) {
  const TemporaryFolder folder;
  const std::string path = copy_of(folder, "format-1.houseleek");
  {
    const store::Project project = project_at(path, {.access = store::Access::write});
    EXPECT_EQ(store::add_event(project, {watering(3.0), std::nullopt, 40}), 10);
  }
  EXPECT_EQ(store::read_events(project_at(path)).size(), 10U);
}

}  // namespace
}  // namespace houseleek::tests
