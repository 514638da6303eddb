// A text with some of its bytes, numbers and lines spoiled, the same for the same seed on any machine.
#pragma once
#include <cstdint>
#include <string>

namespace houseleek::tests {

/// One to six faults: bytes turned, numbers replaced by odd ones, lines swapped, doubled or dropped, spans cut out, strings
/// borrowed from elsewhere in the text, the end cut off.
[[nodiscard]] std::string spoiled(const std::string& text, std::uint64_t seed);

}  // namespace houseleek::tests
