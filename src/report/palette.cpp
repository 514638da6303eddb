// The colours of a report: one hue from pale to deep, once for light paper and once for dark screens.
#include "report/palette.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace houseleek::report {
namespace {

constexpr Colour from_hex(std::uint32_t hex) {
  return {static_cast<std::uint8_t>(hex >> 16U), static_cast<std::uint8_t>((hex >> 8U) & 0xFFU),
          static_cast<std::uint8_t>(hex & 0xFFU)};
}

constexpr Colour dark_text = from_hex(0x16211d);
constexpr Colour pale_text = from_hex(0xf4faf7);

constexpr Palette light = {
    .paper = from_hex(0xfdfdfb),
    .raised_paper = from_hex(0xf5f6f2),
    .ink = from_hex(0x1b2521),
    .quiet_ink = from_hex(0x55625c),
    .rule = from_hex(0xcfd6d1),
    .accent = from_hex(0x1c6b53),
    .caution_paper = from_hex(0xeef1ea),
    .caution_ink = from_hex(0x1b2521),
    .ramp = {from_hex(0xeaf3ee), from_hex(0xcfe4d9), from_hex(0xabd0bf), from_hex(0x7fb69f), from_hex(0x3c7b64),
             from_hex(0x276750), from_hex(0x104434)},
    .ink_on_ramp = {dark_text, dark_text, dark_text, dark_text, from_hex(0xffffff), pale_text, pale_text}};

constexpr Palette dark = {
    .paper = from_hex(0x141917),
    .raised_paper = from_hex(0x1c2320),
    .ink = from_hex(0xe6ebe8),
    .quiet_ink = from_hex(0xa3b0aa),
    .rule = from_hex(0x3b4641),
    .accent = from_hex(0x7cc9ae),
    .caution_paper = from_hex(0x202925),
    .caution_ink = from_hex(0xe6ebe8),
    .ramp = {from_hex(0x1f2d27), from_hex(0x23433a), from_hex(0x275b4b), from_hex(0x2f715d), from_hex(0x5fae93),
             from_hex(0x93d0b9), from_hex(0xd2f0e4)},
    .ink_on_ramp = {pale_text, pale_text, pale_text, from_hex(0xffffff), dark_text, dark_text, dark_text}};

double channel(std::uint8_t value) {
  const double c = value / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(Colour colour) {
  return 0.2126 * channel(colour.red) + 0.7152 * channel(colour.green) + 0.0722 * channel(colour.blue);
}

}  // namespace

const Palette& light_palette() { return light; }
const Palette& dark_palette() { return dark; }

double contrast_ratio(Colour a, Colour b) {
  const auto [least, most] = std::minmax({luminance(a), luminance(b)});
  return (most + 0.05) / (least + 0.05);
}

std::string hex_from(Colour colour) {
  return fmt::format("#{:02x}{:02x}{:02x}", colour.red, colour.green, colour.blue);
}

std::string css_from(const Palette& palette) {
  std::string css;
  const auto add = [&css](const std::string& name, Colour colour) {
    css += fmt::format("--{}:{};", name, hex_from(colour));
  };
  add("paper", palette.paper);
  add("raised", palette.raised_paper);
  add("ink", palette.ink);
  add("quiet", palette.quiet_ink);
  add("rule", palette.rule);
  add("accent", palette.accent);
  add("caution-paper", palette.caution_paper);
  add("caution-ink", palette.caution_ink);
  for (std::size_t i = 0; i < n_ramp_steps; ++i) {
    add(fmt::format("r{}", i), palette.ramp[i]);
    add(fmt::format("on-r{}", i), palette.ink_on_ramp[i]);
  }
  return css;
}

}  // namespace houseleek::report
