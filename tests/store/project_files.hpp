// Project files in a folder of a test.
#pragma once
#include <string>

#include "store/records.hpp"

namespace houseleek::tests {

/// A handle on a file that is made if need be, or must be there.
[[nodiscard]] store::Database database_at(const std::string& path, bool is_made);

/// A new project at a path.
[[nodiscard]] store::Project new_project_at(const std::string& path);

[[nodiscard]] store::Project project_at(const std::string& path, const store::OpenOptions& options = {});

/// What opening a file says.
[[nodiscard]] std::string refusal_of(const std::string& path, const store::OpenOptions& options = {});

/// The bytes of a file.
[[nodiscard]] std::string bytes_of(const std::string& path);

/// Watering of module A1 with so many litres.
[[nodiscard]] logbook::Event watering(double water_l);

}  // namespace houseleek::tests
