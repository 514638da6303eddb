// Names of covers as a report's reader meets them, and where each stands in the document.
#pragma once
#include <array>
#include <string_view>

#include "report/study_answer.hpp"

namespace houseleek::report {

struct CoverWords {
  CoverKind cover;
  std::string_view key;        // below a room in the JSON document
  std::string_view words;      // in tables
  std::string_view label;      // beside lines and bars
  std::string_view css_class;  // how it is drawn
};

inline constexpr std::array<CoverWords, n_covers> cover_words = {{
    {CoverKind::bare, "bare", "bare", "bare", "bare"},
    {CoverKind::planted, "planted", "modules as laid out", "modules", "planted"},
    {CoverKind::white_same, "white/same_squares", "painted white, same squares", "painted", "white"},
    {CoverKind::white_whole, "white/whole_roof", "painted white, whole roof", "all painted", "white"},
    {CoverKind::net_same, "net/same_squares", "raised net, same squares", "net", "net"},
    {CoverKind::net_whole, "net/whole_roof", "raised net, whole roof", "net all over", "net"},
    {CoverKind::board_same, "board/same_squares", "ballasted board, same squares", "board", "board"},
    {CoverKind::board_whole, "board/whole_roof", "ballasted board, whole roof", "board all over", "board"},
}};

/// Covers that are compared on the same squares: five, so that a chart stays readable.
inline constexpr std::array<CoverKind, 5> compared_covers = {CoverKind::bare, CoverKind::planted, CoverKind::white_same,
                                                             CoverKind::net_same, CoverKind::board_same};

}  // namespace houseleek::report
