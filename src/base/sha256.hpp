// A fingerprint of texts, so that an answer can say which inputs made it.
#pragma once
#include <string>
#include <string_view>

namespace houseleek {

/// 64 hexadecimal digits of SHA-256, as in FIPS 180-4 (constants from memory, digests checked).
[[nodiscard]] std::string sha256_hex(std::string_view bytes);

}  // namespace houseleek
