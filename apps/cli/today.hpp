// Today by the clock of this machine, in words.
#pragma once
#include <string>

namespace houseleek::cli {

/// 25 November 2026. Errors: WorldFailed where the clock tells no date.
[[nodiscard]] std::string today_in_words();

}  // namespace houseleek::cli
