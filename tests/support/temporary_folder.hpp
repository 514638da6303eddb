// A folder for the files of one test.
#pragma once
#include <string>

namespace houseleek::tests {

/// A new empty folder, gone at the end of its life.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  [[nodiscard]] const std::string& path() const noexcept { return path_; }
  /// Writes a file in it and returns its path.
  [[nodiscard]] std::string write(const std::string& name, const std::string& text) const;

 private:
  std::string path_;
};

}  // namespace houseleek::tests
