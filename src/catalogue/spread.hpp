// A figure with its range, where it comes from, and how sure that is.
#pragma once
#include <string>

namespace houseleek::catalogue {

/// How a figure is known. The order is from firm to loose.
enum class Certainty {
  by_definition,
  measured,     // fitted to readings on this roof
  text_seen,    // the source's own words or table, or a copy of it, was read
  recomputed,   // worked out from a stated equation and stated inputs
  from_memory,  // attributed to a source whose text was not seen, or common knowledge of the trade
  estimate,     // our own judgement; no published value known
  invented,     // made up for an example
  own_figure    // typed by the owner of the design
};

/// One figure: what is likely, and a low and high that are seldom passed. An exact figure has all three equal.
struct Spread {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
  std::string source;
  Certainty certainty = Certainty::estimate;
  bool operator==(const Spread&) const = default;
};

}  // namespace houseleek::catalogue
