// A small disk of its own for a test, where this machine lets it mount one.
#pragma once
#include <string>

namespace houseleek::tests {

class SmallDisk {
 public:
  /// Size as mount takes it: 256k.
  SmallDisk(std::string path, const std::string& size);
  ~SmallDisk();
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  /// False without the rights of root; the path is then a plain folder.
  [[nodiscard]] bool is_mounted() const noexcept { return is_mounted_; }
  /// From now on nothing can be written on it. True where that went well.
  [[nodiscard]] bool make_read_only() const;

 private:
  std::string path_;
  bool is_mounted_ = false;
};

}  // namespace houseleek::tests
