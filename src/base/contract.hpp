// Contract checks: our own mistakes stop the program, in release builds too.
#pragma once
#include <stdexcept>
#include <string>
#include <string_view>

namespace houseleek {

/// Thrown when the program itself is wrong (never for a person's input). Caught only in main and the request handler.
class ContractViolation : public std::logic_error {
 public:
  using std::logic_error::logic_error;
};

/// Checks a promise between two pieces of our own code and names the place that broke it.
inline void expects(bool is_met, std::string_view what, const char* file = __builtin_FILE(),
                    int line = __builtin_LINE(), const char* function = __builtin_FUNCTION()) {
  if (!is_met) [[unlikely]] {
    throw ContractViolation(std::string(file) + ":" + std::to_string(line) + ": " + function + ": expected " +
                            std::string(what));
  }
}

}  // namespace houseleek
