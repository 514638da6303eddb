// [prices], [tariff] and [rivals]: money, and what the plain rivals are made of.
#pragma once
#include <string>
#include <vector>

#include "catalogue/catalogue.hpp"
#include "design/recipe.hpp"

namespace houseleek::design {

/// The design's own prices before the catalogue's; spreads are kept because money is answered as a range.
struct Prices {
  std::string currency;
  std::vector<catalogue::PriceItem> items;  // own items and the catalogue's, one a name, sorted by name
  catalogue::Tariff tariff;
  bool operator==(const Prices&) const = default;
};

/// The roof painted white, a raised shade net alone, a ballasted insulation board.
struct Rivals {
  double white_albedo_new = 0.0;
  double white_albedo_aged = 0.0;
  double white_emissivity = 0.0;
  Screen net;
  Layer board;
  Layer ballast;
  bool operator==(const Rivals&) const = default;
};

}  // namespace houseleek::design
