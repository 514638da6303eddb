// The colours of a report: one hue from pale to deep, once for light paper and once for dark screens.
#pragma once
#include <array>
#include <cstdint>
#include <string>

namespace houseleek::report {

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  bool operator==(const Colour&) const = default;
};

inline constexpr std::size_t n_ramp_steps = 7;

struct Palette {
  Colour paper;
  Colour raised_paper;  // behind tables and charts
  Colour ink;
  Colour quiet_ink;  // units, sources, captions
  Colour rule;       // lines of tables and axes; carries no meaning
  Colour accent;     // links, the planted line
  Colour caution_paper;
  Colour caution_ink;
  std::array<Colour, n_ramp_steps> ramp;         // least to most
  std::array<Colour, n_ramp_steps> ink_on_ramp;  // of numbers written on each step
};

[[nodiscard]] const Palette& light_palette();
[[nodiscard]] const Palette& dark_palette();

/// Equation: (L1 + 0.05)/(L2 + 0.05); L = 0.2126 R + 0.7152 G + 0.0722 B, each channel c/12.92 up to 0.04045, else
///           ((c + 0.055)/1.055)^2.4
/// Source:   Web Content Accessibility Guidelines 2.2, relative luminance and contrast ratio (from memory).
[[nodiscard]] double contrast_ratio(Colour a, Colour b);

/// #1f5a4a
[[nodiscard]] std::string hex_from(Colour colour);

/// Custom properties of a style sheet: --ink:#...;
[[nodiscard]] std::string css_from(const Palette& palette);

}  // namespace houseleek::report
