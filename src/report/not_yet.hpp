// Fields of the answers that later work owns. The list may only shrink; a test compares it with documents and schema.
#pragma once
#include <string_view>

namespace houseleek::report {

/// Paths in the JSON document of a study; [] stands for each item of a list.
inline constexpr std::string_view not_yet_fields[] = {
    "worksheet",  // what to buy, cut and do
};

}  // namespace houseleek::report
