// A small disk of its own for a test, where this machine lets it mount one.
#include "support/small_disk.hpp"

#include <sys/mount.h>

#include <filesystem>
#include <utility>

namespace houseleek::tests {

SmallDisk::SmallDisk(std::string path, const std::string& size) : path_(std::move(path)) {
  std::filesystem::create_directory(path_);
  is_mounted_ = mount("none", path_.c_str(), "tmpfs", 0, ("size=" + size).c_str()) == 0;
}

SmallDisk::~SmallDisk() {
  if (is_mounted_) umount2(path_.c_str(), MNT_DETACH);
}

bool SmallDisk::make_read_only() const {
  return is_mounted_ && mount("none", path_.c_str(), "tmpfs", MS_REMOUNT | MS_RDONLY, nullptr) == 0;
}

}  // namespace houseleek::tests
