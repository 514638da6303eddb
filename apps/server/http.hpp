// HTTP on this machine alone: one thread that reads and writes, others that answer. Boost.Beast does the protocol.
#pragma once
#include <atomic>
#include <functional>
#include <memory>
#include <string>

namespace houseleek::server {

/// What came in, as far as anybody here looks at it. Names of headers that are not there give empty texts.
struct Request {
  std::string method;
  std::string target;
  std::string host;
  std::string origin;
  std::string fetch_site;  // Sec-Fetch-Site
  std::string content_type;
  std::string token;  // X-Houseleek-Token
  std::string body;
};

struct Response {
  int status = 200;
  std::string content_type = "application/json; charset=utf-8";
  std::string body;
};

struct HttpLimits {
  std::size_t most_header_bytes = 16 * 1024;  // a browser sends about one
  std::size_t most_body_bytes = 2'000'000;    // a description, or the events of a long day, many times over
  int most_connections = 64;                  // a few windows with six each
  int seconds_for_request = 20;               // whole; a client that drips is sent away
  int seconds_idle = 60;                      // between requests
  unsigned n_workers = 3;
};

/// Bound to 127.0.0.1 from its making on.
class HttpServer {
 public:
  using Handler = std::function<Response(const Request&)>;

  /// `port` 0: any that is free. Errors: std::runtime_error where the port is taken.
  HttpServer(int port, HttpLimits limits, Handler handler);
  ~HttpServer();
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  [[nodiscard]] int port() const;
  /// Serves until the flag is raised; looks ten times a second.
  void run_until(const std::atomic<bool>& is_over);

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace houseleek::server
