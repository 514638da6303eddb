// What each recipe is by itself: its weight, and what the deck under it lets through by the standards' own rules.
#pragma once
#include <string>
#include <vector>

#include "design/parse.hpp"
#include "report/study_answer.hpp"

namespace houseleek::studies {

/// The deck's layers in words, from the membrane down.
[[nodiscard]] std::string deck_in_words(const design::Roof& roof);

/// The deck alone: heat flowing up, surface resistances of ISO 6946; the daily swing by ISO 13786.
[[nodiscard]] report::DeckAnswer answer_deck(const design::ValidDesign& design);

/// Every recipe of the design, laid or not.
/// Equation: U = 1/(sum of R), swing by ISO 13786 with the same layers, dry. Flat: deck, contact, module. Raised,
///           spacers with open edges that are well ventilated by ISO 6946: all outside the gap left out, with the
///           inside's surface resistance at its face; closed: still air between; in between: the standard's straight
///           line for U
/// Symbols:  openings of the gap: height * perimeter * open share of the edges, on a square metre of one module
/// Units:    as the names say. Wet: every layer that takes up water at field capacity.
/// Source:   [iso6946], [iso13786].   Checked by: tests/studies/recipe_answers_test.cpp.
[[nodiscard]] std::vector<report::RecipeAnswer> answer_recipes(const design::ValidDesign& design);

}  // namespace houseleek::studies
