// A thin hold on SQLite: a handle that is given, statements, transactions, and failures in plain sentences.
#include "store/database.hpp"

#include <fmt/format.h>

#include <new>
#include <system_error>

#include "base/contract.hpp"

namespace houseleek::store {
namespace {

std::string sentence(const std::string& name, std::string_view what, std::string_view hint) {
  return fmt::format("{}: {}\n  hint: {}", name, what, hint);
}

std::string reason_of(sqlite3* handle) {
  const int error = sqlite3_system_errno(handle);
  return error == 0 ? "" : fmt::format(" ({})", std::generic_category().message(error));
}

}  // namespace

void throw_failure(sqlite3* handle, const std::string& name) {
  const int extended = sqlite3_extended_errcode(handle);
  switch (extended & 0xFF) {
    case SQLITE_FULL:
      throw StoreError(sentence(name, "the disk is full; nothing was written",
                                "make room and do it once more; everything noted before is still there"));
    case SQLITE_READONLY:
      throw StoreError(sentence(name, "the file is read-only; nothing was written",
                                "copy it to a folder where you may write, or ask whoever owns it"));
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      throw StoreError(sentence(name, "another program is working in it; nothing was written",
                                "close the other program, or wait until it is done, and do it once more"));
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      throw StoreError(sentence(name, fmt::format("the file is damaged: {}", sqlite3_errmsg(handle)),
                                "go back to a copy of it; do not write in this one"));
    case SQLITE_CANTOPEN:
      throw StoreError(
          sentence(name, fmt::format("cannot open it, or the file beside it that guards a change{}", reason_of(handle)),
                   "is the name right, and may you write in its folder?"));
    case SQLITE_IOERR:
      throw StoreError(sentence(name, fmt::format("the disk failed: {}{}", sqlite3_errmsg(handle), reason_of(handle)),
                                "look after the disk, and go back to a copy if the file does not open"));
    case SQLITE_PERM:
    case SQLITE_AUTH:
      throw StoreError(sentence(name, "no right to open it", "ask whoever owns it"));
    case SQLITE_TOOBIG:
      throw StoreError(sentence(name, "a text is too large for the file", "make it shorter"));
    case SQLITE_NOMEM:
      throw std::bad_alloc();
    default:
      throw ContractViolation(fmt::format("{}: SQLite error {}: {}", name, extended, sqlite3_errmsg(handle)));
  }
}

void Database::run(const std::string& sql) const {
  if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) {
    throw_failure(handle_.get(), name_);
  }
}

std::int64_t Database::number_from(const std::string& sql) const {
  Statement statement(*this, sql);
  expects(statement.step(), "a row with a number");
  return statement.number(0);
}

std::string Database::text_from(const std::string& sql) const {
  Statement statement(*this, sql);
  expects(statement.step(), "a row with a text");
  return statement.text(0);
}

Statement::Statement(const Database& database, std::string_view sql) : database_(&database) {
  sqlite3_stmt* statement = nullptr;
  const int code = sqlite3_prepare_v2(database.handle(), sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
  statement_.reset(statement);
  check(code);
}

void Statement::check(int code) const {
  if (code != SQLITE_OK) throw_failure(database_->handle(), database_->name());
}

void Statement::bind(int at, std::int64_t number) { check(sqlite3_bind_int64(statement_.get(), at + 1, number)); }

void Statement::bind(int at, double number) { check(sqlite3_bind_double(statement_.get(), at + 1, number)); }

void Statement::bind(int at, std::string_view text) {
  check(sqlite3_bind_text64(statement_.get(), at + 1, text.data() == nullptr ? "" : text.data(), text.size(),
                            SQLITE_STATIC, SQLITE_UTF8));
}

void Statement::bind_nothing(int at) { check(sqlite3_bind_null(statement_.get(), at + 1)); }

bool Statement::step() {
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) throw_failure(database_->handle(), database_->name());
  return false;
}

void Statement::run() {
  while (step()) {
  }
  check(sqlite3_reset(statement_.get()));
}

std::string Statement::text(int at) const {
  const unsigned char* bytes = sqlite3_column_text(statement_.get(), at);
  const int n_bytes = sqlite3_column_bytes(statement_.get(), at);
  return bytes == nullptr ? std::string() : std::string(bytes, bytes + n_bytes);
}

Transaction::Transaction(const Database& database) : database_(&database) { database.run("BEGIN IMMEDIATE"); }

Transaction::~Transaction() {
  // Where a failure has taken everything back already, there is nothing to take back, and nobody to tell.
  if (is_open_) (void)sqlite3_exec(database_->handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
  database_->run("COMMIT");
  is_open_ = false;
}

}  // namespace houseleek::store
