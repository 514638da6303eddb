// What a person's wrong input turns into: a value, or the whole list of issues with their places.
#pragma once
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/contract.hpp"

namespace houseleek {

enum class IssueCode { syntax, missing_field, unknown_field, wrong_type, out_of_range, unknown_name, inconsistent };
enum class Severity { error, warning };

/// One problem with a person's input. `code` and `path` are stable for other programs; `message` is for people.
struct Issue {
  IssueCode code = IssueCode::inconsistent;
  Severity severity = Severity::error;
  std::string path;     // dotted, arrays by index: recipe[0].layer[2].thickness_mm
  std::string file;     // as given by the person; empty if there is no file
  int line = 0;         // from 1; 0: no place known
  int column = 0;       // from 1
  std::string value;    // what was found, as written
  std::string limit;    // what would be accepted
  std::string message;  // one sentence
  std::string hint;     // what to do; may be empty
  bool operator==(const Issue&) const = default;
};
using Issues = std::vector<Issue>;

/// An issue of a value that does not fit the rest, without a place in a file.
[[nodiscard]] inline Issue inconsistent_issue(std::string path, std::string value, std::string message,
                                              std::string hint) {
  Issue issue;
  issue.path = std::move(path);
  issue.value = std::move(value);
  issue.message = std::move(message);
  issue.hint = std::move(hint);
  return issue;
}

struct Unexpected {
  Issues issues;
};

/// A value or a list of issues; member names as in std::expected, so that it can become an alias later.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}                            // NOLINT(*explicit*)
  Result(Unexpected unexpected) : state_(std::in_place_index<1>, std::move(unexpected.issues)) {}  // NOLINT(*explicit*)
  [[nodiscard]] bool has_value() const noexcept { return state_.index() == 0; }
  explicit operator bool() const noexcept { return has_value(); }
  const T& value() const& {
    expects(has_value(), "a result that holds a value");
    return std::get<0>(state_);
  }
  T&& value() && {
    expects(has_value(), "a result that holds a value");
    return std::get<0>(std::move(state_));
  }
  [[nodiscard]] const Issues& error() const& {
    expects(!has_value(), "a result that holds issues");
    return std::get<1>(state_);
  }

 private:
  std::variant<T, Issues> state_;
};

}  // namespace houseleek
