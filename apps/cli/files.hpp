// Files and streams of the person's machine, with a clear sentence where they fail.
#pragma once
#include <cstddef>
#include <cstdio>
#include <functional>
#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

namespace houseleek::cli {

/// The world failed: exit code 3.
class WorldFailed : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The first `most_bytes` + 1 bytes of a file; whoever reads the text refuses it by its size.
/// Errors: WorldFailed where it is missing, a directory, or cannot be read.
[[nodiscard]] std::string read_file(const std::string& path, std::size_t most_bytes);

/// Hands on a file in pieces, from its beginning. Errors: WorldFailed where it cannot be read.
void read_in_pieces(const std::string& path, const std::function<void(std::string_view)>& take);

/// A file that is to be written whole or not at all: what was there stays until finish() has written all of the text.
/// Errors: WorldFailed, at once where nothing could be written there.
class NewFile {
 public:
  explicit NewFile(std::string path);
  ~NewFile();
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  /// A piece of a long text.
  void add(std::string_view text);
  /// The last piece, or all of it.
  void finish(std::string_view text);

 private:
  std::string path_;
  std::string part_path_;  // beside it; empty once finished
  std::unique_ptr<std::FILE, int (*)(std::FILE*)> file_;
};

/// True if both paths lead to one file that is there.
[[nodiscard]] bool is_same_file(const std::string& a, const std::string& b);

/// Everything to stdout. Errors: WorldFailed where not all of it went.
void write_answer(std::string_view text);

/// A sentence to stderr.
void write_message(std::string_view text);

}  // namespace houseleek::cli
