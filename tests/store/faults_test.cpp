// What can go wrong with a project file: each gives its own sentence, and the file stays as it was.
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <random>

#include "base/contract.hpp"
#include "store/project_files.hpp"
#include "store/records.hpp"
#include "support/small_disk.hpp"
#include "support/temporary_folder.hpp"

namespace houseleek::tests {
namespace {

const store::OpenOptions to_write = {.access = store::Access::write, .wait_ms = 50};

/// A project with a revision and some events; its path.
std::string small_project_in(const TemporaryFolder& folder) {
  std::string path = folder.path() + "/a.houseleek";
  const store::Project project = new_project_at(path);
  (void)store::add_revision(project, {"format = 1\n# a text\n", "as found", 1000});
  for (int i = 0; i < 10; ++i) (void)store::add_event(project, {watering(i), std::nullopt, 2000 + i});
  (void)store::add_result(project, {0, 1, 1, "study", "0.1.0", "{}", "1", "abc", "{\"a\":1}"});
  return path;
}

/// What a failing action says.
template <class Action>
std::string said_by(const Action& action) {
  try {
    action();
  } catch (const store::StoreError& error) {
    return error.what();
  }
  return "nothing";
}

TEST(Faults, WhatIsNoProjectIsLeftAlone) {
  const TemporaryFolder folder;
  const std::string make =
      "\n  hint: a project is made from a description: houseleek import roof.toml --to my-roof.houseleek";
  const std::string text = folder.write("a.toml", std::string(2000, '#'));
  EXPECT_EQ(refusal_of(text), text + ": this is no project of Houseleek" + make);
  EXPECT_EQ(bytes_of(text), std::string(2000, '#'));
  const std::string empty = folder.write("empty", "");
  EXPECT_EQ(refusal_of(empty, to_write), empty + ": this file is empty, no project" + make);
  EXPECT_EQ(bytes_of(empty), "");
  const std::string other = folder.path() + "/other.db";
  database_at(other, true).run("CREATE TABLE a (b)");
  const std::string before = bytes_of(other);
  EXPECT_EQ(refusal_of(other, to_write), other + ": this is the SQLite file of another program, no project" + make);
  EXPECT_EQ(bytes_of(other), before);
}

TEST(Faults, ANewerFormatIsLeftAlone) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  database_at(path, false).run("PRAGMA user_version = 7");
  const std::string before = bytes_of(path);
  for (const store::OpenOptions& options : {store::OpenOptions{}, to_write}) {
    EXPECT_EQ(
        refusal_of(path, options),
        path +
            ": the project has format 7; this version of Houseleek reads up to 1\n  hint: take the newer version of "
            "Houseleek that wrote it; nothing was changed");
  }
  EXPECT_EQ(bytes_of(path), before);
}

TEST(Faults, ALockedFileIsSaid) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const store::Project writing = project_at(path, to_write);
  const store::Database other = database_at(path, false);
  other.run("BEGIN EXCLUSIVE");
  const std::string sentence = path +
                               ": another program is working in it; nothing was written\n  hint: close the other "
                               "program, or wait until it is done, and do it once more";
  EXPECT_EQ(said_by([&] { (void)store::add_event(writing, {watering(99.0), std::nullopt, 1}); }), sentence);
  EXPECT_EQ(refusal_of(path, to_write), sentence);
  other.run("COMMIT");
  EXPECT_EQ(store::add_event(writing, {watering(99.0), std::nullopt, 1}), 11);
}

TEST(Faults, AFullDiskTakesNothingAway) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const store::Project project = project_at(path, to_write);
  const std::string before = bytes_of(path);
  project.database().run("PRAGMA max_page_count = 1");  // the pages that are there, and none more
  const std::string long_text(100'000, '#');
  EXPECT_EQ(
      said_by([&] {
        (void)store::add_revision(project, {long_text, "", 3000});
      }),
      path +
          ": the disk is full; nothing was written\n  hint: make room and do it once more; everything noted before "
          "is still there");
  EXPECT_EQ(bytes_of(path), before);
  EXPECT_EQ(store::read_revisions(project).size(), 1U);
  project.database().run("PRAGMA max_page_count = 1000000");
  EXPECT_EQ(store::add_revision(project, {long_text, "", 3000}), 2);
}

TEST(Faults, ADiskThatFillsKeepsAllThatWasAcknowledged) {
  const TemporaryFolder folder;
  const SmallDisk disk(folder.path() + "/disk", "256k");
  if (!disk.is_mounted()) GTEST_SKIP() << "this test mounts a small disk, which wants the rights of root";
  const std::string path = folder.path() + "/disk/a.houseleek";
  int n_acknowledged = 0;
  std::string sentence;
  {
    const store::Project project = new_project_at(path);
    logbook::Event event = watering(1.0);
    event.note = std::string(2000, 'n');
    for (; n_acknowledged < 1000 && sentence.empty(); ++n_acknowledged) {
      sentence = said_by([&] { (void)store::add_event(project, {event, std::nullopt, n_acknowledged}); });
      if (sentence == "nothing") sentence.clear();
    }
    --n_acknowledged;  // the last one failed
  }
  EXPECT_EQ(sentence.rfind(path + ": the disk is full; nothing was written\n", 0), 0U) << sentence;
  EXPECT_GT(n_acknowledged, 10);
  EXPECT_EQ(store::read_events(project_at(path)).size(), static_cast<std::size_t>(n_acknowledged));
}

TEST(Faults, AReadOnlyFileIsReadAndNotWritten) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const std::string before = bytes_of(path);
  const auto open_for = [&path](store::Access access) {
    sqlite3* handle = nullptr;
    EXPECT_EQ(sqlite3_open_v2(path.c_str(), &handle, SQLITE_OPEN_READONLY, nullptr), SQLITE_OK);
    return store::open_project(store::Database(handle, path), {.access = access});
  };
  EXPECT_EQ(store::read_events(open_for(store::Access::read)).size(), 10U);
  EXPECT_EQ(said_by([&] { (void)open_for(store::Access::write); }),
            path +
                ": the file is read-only; nothing was written\n  hint: copy it to a folder where you may write, or ask "
                "whoever owns it");
  EXPECT_EQ(bytes_of(path), before);
}

TEST(Faults, OpenedForReadingNothingIsWritten) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const store::Project project = project_at(path);
  EXPECT_EQ(said_by([&] {
              (void)store::add_event(project, {watering(1.0), std::nullopt, 1});
            }),
            path +
                ": the file is read-only; nothing was written\n  hint: copy it to a folder where you may write, or ask "
                "whoever owns it");
}

/// All that a project holds.
struct Contents {
  std::vector<store::Revision> revisions;
  std::vector<logbook::EventRecord> events;
  std::vector<store::StoredResult> results;
  bool operator==(const Contents&) const = default;
};

Contents contents_of(const std::string& path) {
  const store::Project project = project_at(path);
  return {store::read_revisions(project), store::read_events(project), store::read_results(project)};
}

TEST(Faults, NoFlippedByteChangesAnAnswer) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const Contents whole = contents_of(path);
  const std::string bytes = bytes_of(path);
  std::size_t n_refused = 0;
  std::size_t n_tried = 0;
  std::mt19937_64 random(20261130);
  // One place in fifty or so and one bit of each: the whole file is walked in a few seconds.
  for (std::size_t at = random() % 50; at < bytes.size(); at += 1 + random() % 99, ++n_tried) {
    std::string turned = bytes;
    turned[at] = static_cast<char>(turned[at] ^ (1 << (random() % 8)));
    const std::string copy = folder.write("turned.houseleek", turned);
    std::filesystem::remove(copy + "-journal");
    const std::string sentence = said_by([&] { EXPECT_EQ(contents_of(copy), whole) << "byte " << at; });
    if (sentence == "nothing") continue;
    ++n_refused;
    EXPECT_NE(sentence.find("\n  hint: "), std::string::npos) << "byte " << at << ": " << sentence;
    EXPECT_EQ(bytes_of(copy), turned) << "byte " << at;
  }
  RecordProperty("n_tried", static_cast<int>(n_tried));
  RecordProperty("n_refused", static_cast<int>(n_refused));
  EXPECT_GT(n_tried, 500U);
  EXPECT_GT(n_refused, 50U);  // the rest is room that nothing is written in
}

TEST(Faults, ATurnedByteInATextIsSeen) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  std::string bytes = bytes_of(path);
  const std::size_t at = bytes.find("# a text");
  ASSERT_NE(at, std::string::npos);
  bytes[at + 2] = 'b';
  const std::string copy = folder.write("turned.houseleek", bytes);
  const store::Project project = project_at(copy);
  EXPECT_EQ(
      said_by([&] { (void)store::read_newest_revision(project); }),
      copy +
          ": the file is damaged: revision 1 is not as it was written\n  hint: go back to a copy of it; do not write "
          "in this one");
}

TEST(Faults, AFileThatWasCutIsSeen) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const std::string bytes = bytes_of(path);
  const std::string cut = folder.write("cut.houseleek", bytes.substr(0, bytes.size() - 5000));
  const std::string sentence = refusal_of(cut);
  EXPECT_EQ(sentence.rfind(cut + ": the file is damaged: ", 0), 0U) << sentence;
}

constexpr std::string_view second_format = "CREATE TABLE later (a INTEGER NOT NULL) STRICT;";
constexpr std::string_view broken_format =
    "CREATE TABLE later (a INTEGER NOT NULL) STRICT; INSERT INTO later VALUES (NULL);";

TEST(Migration, AnOlderFileIsCopiedAndBroughtUpToDate) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const Contents before = contents_of(path);
  const std::vector<std::string_view> formats = {store::formats().front(), second_format};
  for (const store::Access access : {store::Access::read, store::Access::write}) {
    const store::Project project = project_at(path, {.access = access, .formats = formats});
    EXPECT_EQ(project.database().number_from("PRAGMA user_version"), 2);
    EXPECT_EQ(project.database().number_from("SELECT count(*) FROM later"), 0);
    EXPECT_EQ(project.copy_of_older(), access == store::Access::read ? path + ".format-1" : "");
    EXPECT_EQ(store::read_events(project), before.events);
  }
  EXPECT_EQ(contents_of(path + ".format-1"), before);
  // The older program leaves it alone.
  EXPECT_NE(refusal_of(path).find("the project has format 2; this version of Houseleek reads up to 1"),
            std::string::npos);
}

TEST(Migration, ACopyIsNeverWrittenOver) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const std::string kept = folder.write("a.houseleek.format-1", "somebody's");
  const std::vector<std::string_view> formats = {store::formats().front(), second_format};
  EXPECT_EQ(project_at(path, {.formats = formats}).copy_of_older(), path + ".format-1-2");
  EXPECT_EQ(bytes_of(kept), "somebody's");
}

TEST(Migration, OneThatFailsChangesNothing) {
  const TemporaryFolder folder;
  const std::string path = small_project_in(folder);
  const std::string before = bytes_of(path);
  const std::vector<std::string_view> formats = {store::formats().front(), broken_format};
  EXPECT_THROW((void)project_at(path, {.formats = formats}), ContractViolation);
  EXPECT_EQ(bytes_of(path), before);
}

}  // namespace
}  // namespace houseleek::tests
