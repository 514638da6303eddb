// Files and streams of the person's machine, with a clear sentence where they fail.
#include "files.hpp"

#include <fmt/format.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <system_error>
#include <vector>

namespace houseleek::cli {
namespace {

std::string reason_of(int error) { return std::generic_category().message(error); }

}  // namespace

std::string read_file(const std::string& path, std::size_t most_bytes) {
  std::error_code ignored;  // whatever is wrong, opening says it better
  if (std::filesystem::is_directory(path, ignored)) {
    throw WorldFailed(fmt::format("{} is a directory; give the file in it (roof.toml)", path));
  }
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rb"), &std::fclose);
  if (!file) throw WorldFailed(fmt::format("cannot open {}: {}", path, reason_of(errno)));
  std::string text;
  std::array<char, 65536> part{};
  while (text.size() <= most_bytes) {
    const std::size_t wanted = std::min(part.size(), most_bytes + 1 - text.size());
    const std::size_t n_bytes = std::fread(part.data(), 1, wanted, file.get());
    text.append(part.data(), n_bytes);
    if (n_bytes == wanted) continue;
    if (std::ferror(file.get()) != 0) throw WorldFailed(fmt::format("cannot read {}: {}", path, reason_of(errno)));
    break;
  }
  return text;
}

void read_in_pieces(const std::string& path, const std::function<void(std::string_view)>& take) {
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rb"), &std::fclose);
  if (!file) throw WorldFailed(fmt::format("cannot open {}: {}", path, reason_of(errno)));
  std::vector<char> piece(std::size_t{1} << 20U);
  while (const std::size_t n_bytes = std::fread(piece.data(), 1, piece.size(), file.get())) {
    take(std::string_view(piece.data(), n_bytes));
  }
  if (std::ferror(file.get()) != 0) throw WorldFailed(fmt::format("cannot read {}: {}", path, reason_of(errno)));
}

NewFile::NewFile(std::string path) : path_(std::move(path)), part_path_(path_ + ".part"), file_(nullptr, &std::fclose) {
  std::error_code ignored;
  if (std::filesystem::exists(path_, ignored) && !std::filesystem::is_regular_file(path_, ignored)) {
    throw WorldFailed(fmt::format("{} is no plain file", path_));
  }
  file_.reset(std::fopen(part_path_.c_str(), "wb"));
  if (!file_) throw WorldFailed(fmt::format("cannot write {}: {}", path_, reason_of(errno)));
}

NewFile::~NewFile() {
  if (part_path_.empty()) return;
  std::error_code ignored;  // it may be gone already
  std::filesystem::remove(part_path_, ignored);
}

void NewFile::add(std::string_view text) {
  if (std::fwrite(text.data(), 1, text.size(), file_.get()) == text.size()) return;
  throw WorldFailed(fmt::format("cannot write {}: {}", path_, reason_of(errno)));
}

void NewFile::finish(std::string_view text) {
  add(text);
  if (std::fclose(file_.release()) != 0) {
    throw WorldFailed(fmt::format("cannot write {}: {}", path_, reason_of(errno)));
  }
  std::filesystem::rename(part_path_, path_);
  part_path_.clear();
}

bool is_same_file(const std::string& a, const std::string& b) {
  std::error_code ignored;  // a file that is not there is no other file
  return std::filesystem::equivalent(a, b, ignored);
}

void write_answer(std::string_view text) {
  const bool is_written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (!is_written || std::fflush(stdout) != 0) {
    throw WorldFailed(fmt::format("cannot write the answer: {}", reason_of(errno)));
  }
}

void write_message(std::string_view text) {
  // Where stderr fails too, there is nobody left to tell.
  (void)std::fwrite(text.data(), 1, text.size(), stderr);
  (void)std::fflush(stderr);
}

}  // namespace houseleek::cli
