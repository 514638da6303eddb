// What an engineer wrote down, and the words in which anything is compared with it.
#include "checks/allowance.hpp"

#include <fmt/format.h>

namespace houseleek::checks {
namespace {

bool is_blank(const std::string& text) { return text.find_first_not_of(" \t\r\n") == std::string::npos; }

}  // namespace

std::vector<std::string> missing_parts(const design::Roof& roof) {
  if (!roof.allowable_load) return {"the figure itself", "who wrote it down", "when", "what it already includes"};
  const design::AllowableLoad& load = *roof.allowable_load;
  std::vector<std::string> missing;
  if (!load.load_kn_per_m2) missing.emplace_back("the figure itself");
  if (is_blank(load.who)) missing.emplace_back("who wrote it down");
  if (is_blank(load.when)) missing.emplace_back("when");
  if (is_blank(load.includes)) missing.emplace_back("what it already includes");
  return missing;
}

std::string joined_words(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) text += i + 1 == parts.size() ? " and " : ", ";
    text += parts[i];
  }
  return text;
}

std::string figure_words(const design::Roof& roof) {
  const design::AllowableLoad& allowed = *roof.allowable_load;
  return fmt::format("the {:.3g} kN/m2 that {} wrote down on {}", *allowed.load_kn_per_m2, allowed.who, allowed.when);
}

std::string_view words_from(LoadVerdict verdict) {
  switch (verdict) {
    case LoadVerdict::within:
      return ": within ";
    case LoadVerdict::not_shown:
      return ": not shown to stay within ";
    case LoadVerdict::above:
      return ": above ";
    case LoadVerdict::none:
      break;
  }
  return "; no verdict about ";
}

}  // namespace houseleek::checks
