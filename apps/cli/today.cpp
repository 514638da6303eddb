// Today by the clock of this machine, in words.
#include "today.hpp"

#include <fmt/format.h>

#include <array>
#include <ctime>
#include <string_view>

#include "files.hpp"

namespace houseleek::cli {

std::string today_in_words() {
  constexpr std::array<std::string_view, 12> months = {"January",   "February", "March",    "April",
                                                       "May",       "June",     "July",     "August",
                                                       "September", "October",  "November", "December"};
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  if (localtime_r(&now, &local) == nullptr) throw WorldFailed("this machine's clock tells no date");
  return fmt::format("{} {} {}", local.tm_mday, months.at(static_cast<std::size_t>(local.tm_mon)),
                     local.tm_year + 1900);
}

}  // namespace houseleek::cli
