// What a household has to do for a trial, and what an adviser wants to know of it, a sentence each.
#pragma once
#include <string>
#include <vector>

#include "trials/plan.hpp"

namespace houseleek::trials {

[[nodiscard]] std::vector<std::string> household_sentences(const TrialWish& wish, const TrialPlan& plan,
                                                           const TrialSize& chosen);
[[nodiscard]] std::vector<std::string> adviser_sentences(const TrialWish& wish, const TrialPlan& plan,
                                                         const TrialSize& chosen);

}  // namespace houseleek::trials
