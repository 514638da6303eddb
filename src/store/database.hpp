// A thin hold on SQLite: a handle that is given, statements, transactions, and failures in plain sentences.
#pragma once
#include <sqlite3.h>

#include <cstdint>
#include <memory>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace houseleek::store {

/// The project file failed: what() is a sentence with the file's name and a hint. Nothing has been changed.
class StoreError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Owns a handle that was opened elsewhere.
class Database {
 public:
  /// `name` is the file's, for messages.
  Database(sqlite3* handle, std::string name) : handle_(handle), name_(std::move(name)) {}
  [[nodiscard]] sqlite3* handle() const noexcept { return handle_.get(); }
  [[nodiscard]] const std::string& name() const noexcept { return name_; }

  /// Runs statements that give no rows. Errors: StoreError.
  void run(const std::string& sql) const;
  /// The first number that a query gives. Errors: StoreError.
  [[nodiscard]] std::int64_t number_from(const std::string& sql) const;
  /// The first text that a query gives. Errors: StoreError.
  [[nodiscard]] std::string text_from(const std::string& sql) const;

 private:
  struct Close {
    void operator()(sqlite3* handle) const noexcept { sqlite3_close_v2(handle); }
  };
  std::unique_ptr<sqlite3, Close> handle_;
  std::string name_;
};

/// Turns the handle's last failure into a sentence. A broken rule of our own tables is our own mistake.
/// Errors: always throws StoreError, std::bad_alloc or ContractViolation.
[[noreturn]] void throw_failure(sqlite3* handle, const std::string& name);

/// A compiled statement. Parameters and columns count from 0.
class Statement {
 public:
  Statement(const Database& database, std::string_view sql);

  void bind(int at, std::int64_t number);
  void bind(int at, double number);
  /// The text must live until the next step().
  void bind(int at, std::string_view text);
  void bind_nothing(int at);
  template <class T>
  void bind(int at, const std::optional<T>& value) {
    if (value) {
      bind(at, *value);
    } else {
      bind_nothing(at);
    }
  }

  /// True where there is a row. Errors: StoreError.
  [[nodiscard]] bool step();
  /// Runs to the end and makes it ready for new parameters. Errors: StoreError.
  void run();

  [[nodiscard]] std::int64_t number(int at) const { return sqlite3_column_int64(statement_.get(), at); }
  [[nodiscard]] double real(int at) const { return sqlite3_column_double(statement_.get(), at); }
  [[nodiscard]] std::string text(int at) const;
  [[nodiscard]] bool is_nothing(int at) const { return sqlite3_column_type(statement_.get(), at) == SQLITE_NULL; }
  [[nodiscard]] std::optional<std::int64_t> optional_number(int at) const {
    return is_nothing(at) ? std::nullopt : std::optional<std::int64_t>(number(at));
  }
  [[nodiscard]] std::optional<double> optional_real(int at) const {
    return is_nothing(at) ? std::nullopt : std::optional<double>(real(at));
  }

 private:
  void check(int code) const;
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const noexcept { sqlite3_finalize(statement); }
  };
  const Database* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// All or nothing: what is not committed is taken back.
class Transaction {
 public:
  /// Takes the right to write at once, so that nothing is read that another program then changes.
  explicit Transaction(const Database& database);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  /// On the disk when it returns.
  void commit();

 private:
  const Database* database_;
  bool is_open_ = true;
};

}  // namespace houseleek::store
