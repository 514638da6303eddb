// Project files on the person's disk: told from descriptions, opened, made. The only place that opens a database.
#pragma once
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "store/format.hpp"

namespace houseleek::cli {

/// True if a file's first bytes are those of every SQLite file; whether it is a project shows when it is opened.
[[nodiscard]] bool is_project(std::string_view first_bytes_of_file);

/// Errors: WorldFailed where it is missing; store::StoreError.
[[nodiscard]] store::Project open_project_file(const std::string& path, store::Access access);

/// A new project, filled by a function; it is there whole or not at all.
/// Errors: WorldFailed where something of that name is there already or cannot be made; store::StoreError.
void make_project_file(const std::string& path, const std::function<void(const store::Project&)>& fill);

/// True for a description given to a command that writes; then says on stderr how to make a project of it.
/// Errors: WorldFailed where the file cannot be read.
[[nodiscard]] bool is_refused_description(const std::string& command, const std::string& path);

/// Seconds since 1970 by the clock of this machine.
[[nodiscard]] std::int64_t now_utc_s();

}  // namespace houseleek::cli
