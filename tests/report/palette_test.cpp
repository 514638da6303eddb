// Colours of the report: enough contrast for text on everything it stands on, and a ramp that only goes one way.
#include "report/palette.hpp"

#include <gtest/gtest.h>

#include "report/page_style.hpp"

namespace houseleek::report {
namespace {

constexpr double least_text_contrast = 4.5;  // WCAG 2.2, 1.4.3, level AA (from memory)
constexpr double least_mark_contrast = 3.0;  // 1.4.11: lines and marks that carry meaning (from memory)

TEST(Contrast, OfKnownPairs) {
  EXPECT_NEAR(contrast_ratio({0, 0, 0}, {255, 255, 255}), 21.0, 1e-12) << "by definition";
  EXPECT_NEAR(contrast_ratio({255, 255, 255}, {255, 255, 255}), 1.0, 1e-12);
  // #767676 is the palest grey that is enough on white: 4.54 (from memory).
  EXPECT_NEAR(contrast_ratio({0x76, 0x76, 0x76}, {255, 255, 255}), 4.54, 0.005);
  EXPECT_EQ(contrast_ratio({10, 20, 30}, {200, 100, 50}), contrast_ratio({200, 100, 50}, {10, 20, 30}));
}

class EachPalette : public testing::TestWithParam<const Palette*> {};

TEST_P(EachPalette, TextCanBeReadOnEveryGround) {
  const Palette& palette = *GetParam();
  for (const Colour ink : {palette.ink, palette.quiet_ink, palette.accent}) {
    for (const Colour ground : {palette.paper, palette.caution_paper}) {
      EXPECT_GE(contrast_ratio(ink, ground), least_text_contrast) << hex_from(ink) << " on " << hex_from(ground);
    }
  }
  for (std::size_t i = 0; i < n_ramp_steps; ++i) {
    EXPECT_GE(contrast_ratio(palette.ink_on_ramp[i], palette.ramp[i]), least_text_contrast)
        << hex_from(palette.ink_on_ramp[i]) << " on " << hex_from(palette.ramp[i]);
  }
}

TEST_P(EachPalette, LinesCanBeSeen) {
  const Palette& palette = *GetParam();
  for (const Colour line : {palette.ink, palette.quiet_ink, palette.accent}) {
    EXPECT_GE(contrast_ratio(line, palette.paper), least_mark_contrast) << hex_from(line);
  }
}

TEST_P(EachPalette, RampGoesAwayFromThePaperStepByStep) {
  const Palette& palette = *GetParam();
  for (std::size_t i = 1; i < n_ramp_steps; ++i) {
    EXPECT_GT(contrast_ratio(palette.ramp[i], palette.paper), 1.12 * contrast_ratio(palette.ramp[i - 1], palette.paper))
        << "step " << i;
  }
}

INSTANTIATE_TEST_SUITE_P(LightAndDark, EachPalette, testing::Values(&light_palette(), &dark_palette()));

TEST(PageStyle, NamesNoAddressAndHasBothPalettes) {
  const std::string css = page_style();
  for (const char* forbidden : {"http", "//", "@import", "@font-face", "url(\"", "url('"}) {
    EXPECT_EQ(css.find(forbidden), std::string::npos) << forbidden;
  }
  EXPECT_NE(css.find(hex_from(light_palette().accent)), std::string::npos);
  EXPECT_NE(css.find(hex_from(dark_palette().accent)), std::string::npos);
}

}  // namespace
}  // namespace houseleek::report
