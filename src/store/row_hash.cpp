// The fingerprint of a row, so that a byte that has turned on the disk is seen.
#include "store/row_hash.hpp"

#include <fmt/format.h>

#include <bit>

#include "base/sha256.hpp"

namespace houseleek::store {

void RowHash::add(std::string_view text) { fields_ += fmt::format("{}:{};", text.size(), text); }

void RowHash::add(std::int64_t number) { fields_ += fmt::format("{};", number); }

void RowHash::add(const std::optional<std::int64_t>& number) {
  if (number) return add(*number);
  fields_ += "-;";
}

void RowHash::add(const std::optional<double>& number) {
  // By its bits: no way of writing numbers may ever change a fingerprint.
  fields_ += number ? fmt::format("{:016x};", std::bit_cast<std::uint64_t>(*number)) : "-;";
}

std::string RowHash::hex() const { return sha256_hex(fields_); }

}  // namespace houseleek::store
