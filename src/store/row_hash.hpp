// The fingerprint of a row, so that a byte that has turned on the disk is seen.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace houseleek::store {

/// Collects the fields of a row in a form in which no two different rows are equal.
class RowHash {
 public:
  void add(std::string_view text);
  void add(std::int64_t number);
  void add(const std::optional<std::int64_t>& number);
  void add(const std::optional<double>& number);
  /// 64 hexadecimal digits of SHA-256.
  [[nodiscard]] std::string hex() const;

 private:
  std::string fields_;
};

}  // namespace houseleek::store
