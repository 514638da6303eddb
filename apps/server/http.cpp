// HTTP on this machine alone: one thread that reads and writes, others that answer. Boost.Beast does the protocol.
#include "http.hpp"

#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core.hpp>
#include <boost/beast/http.hpp>
#include <chrono>
#include <memory>
#include <optional>
#include <stdexcept>

namespace houseleek::server {
namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = boost::beast::http;
using asio::ip::tcp;
using boost::system::error_code;

std::string text_from(beast::string_view text) { return {text.data(), text.size()}; }

/// What every session needs of the server.
struct Shared {
  HttpLimits limits;
  HttpServer::Handler handler;
  asio::thread_pool workers;
  std::atomic<int> n_connections = 0;

  Shared(HttpLimits given_limits, HttpServer::Handler given)
      : limits(given_limits), handler(std::move(given)), workers(given_limits.n_workers) {}
};

class Session : public std::enable_shared_from_this<Session> {
 public:
  Session(tcp::socket socket, Shared& shared) : stream_(std::move(socket)), shared_(shared) { ++shared_.n_connections; }
  ~Session() { --shared_.n_connections; }
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;

  void begin() { read(shared_.limits.seconds_for_request); }

 private:
  void read(int seconds) {
    parser_.emplace();
    parser_->header_limit(static_cast<std::uint32_t>(shared_.limits.most_header_bytes));
    parser_->body_limit(shared_.limits.most_body_bytes);
    // One deadline for the whole request, however slowly its bytes come.
    stream_.expires_after(std::chrono::seconds(seconds));
    http::async_read(stream_, buffer_, *parser_,
                     [self = shared_from_this()](error_code error, std::size_t) { self->was_read(error); });
  }

  void was_read(error_code error) {
    if (error == http::error::body_limit || error == http::error::header_limit) {
      is_last_ = true;
      const int status = error == http::error::body_limit ? 413 : 431;
      return write({status, "application/json; charset=utf-8",
                    R"({"error":"too large"})"
                    "\n"});
    }
    if (error == http::error::bad_version || error == http::error::bad_method || error == http::error::bad_target ||
        error == http::error::bad_line_ending || error == http::error::bad_content_length) {
      is_last_ = true;
      return write({400, "application/json; charset=utf-8",
                    R"({"error":"no HTTP"})"
                    "\n"});
    }
    if (error) return;  // gone, or too slow
    const http::request<http::string_body>& message = parser_->get();
    is_last_ = !message.keep_alive();
    is_head_ = message.method() == http::verb::head;
    Request request;
    request.method = text_from(message.method_string());
    request.target = text_from(message.target());
    // Two Host headers are an attack on whoever takes the first one.
    request.host = message.count(http::field::host) == 1 ? text_from(message[http::field::host]) : "";
    request.origin = text_from(message[http::field::origin]);
    request.fetch_site = text_from(message["Sec-Fetch-Site"]);
    request.content_type = text_from(message[http::field::content_type]);
    request.token = text_from(message["X-Houseleek-Token"]);
    request.body = message.body();
    stream_.expires_never();
    asio::post(shared_.workers, [self = shared_from_this(), request = std::move(request)] {
      Response response = self->shared_.handler(request);
      asio::post(self->stream_.get_executor(),
                 [self, response = std::move(response)]() mutable { self->write(std::move(response)); });
    });
  }

  void write(Response response) {
    response_ = {};
    response_.version(11);
    response_.result(static_cast<unsigned>(response.status));
    response_.set(http::field::content_type, response.content_type);
    response_.set(http::field::cache_control, "no-store");
    response_.set("X-Content-Type-Options", "nosniff");
    response_.set("Referrer-Policy", "no-referrer");
    response_.set("X-Frame-Options", "DENY");
    response_.set("Cross-Origin-Resource-Policy", "same-origin");
    response_.set("Cross-Origin-Opener-Policy", "same-origin");
    response_.set("Content-Security-Policy",
                  "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
                  "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
    response_.keep_alive(!is_last_);
    response_.body() = std::move(response.body);
    response_.prepare_payload();
    if (is_head_) response_.body().clear();
    stream_.expires_after(std::chrono::seconds(shared_.limits.seconds_for_request));
    http::async_write(stream_, response_, [self = shared_from_this()](error_code error, std::size_t) {
      if (error) return;
      if (!self->is_last_) return self->read(self->shared_.limits.seconds_idle);
      error_code ignored;  // whoever is gone needs no goodbye
      self->stream_.socket().shutdown(tcp::socket::shutdown_send, ignored);
    });
  }

  beast::tcp_stream stream_;
  Shared& shared_;
  beast::flat_buffer buffer_;
  std::optional<http::request_parser<http::string_body>> parser_;
  http::response<http::string_body> response_;
  bool is_last_ = false;
  bool is_head_ = false;
};

tcp::acceptor acceptor_at(asio::io_context& context, int port) {
  const tcp::endpoint here(asio::ip::make_address("127.0.0.1"), static_cast<std::uint16_t>(port));
  try {
    return {context, here, true};
  } catch (const boost::system::system_error& failure) {
    throw std::runtime_error(failure.code().message());
  }
}

}  // namespace

struct HttpServer::Parts {
  Shared shared;  // outlives the sessions that the context still holds when it goes
  asio::io_context context{1};
  tcp::acceptor acceptor;

  Parts(int port, HttpLimits limits, Handler handler)
      : shared(limits, std::move(handler)), acceptor(acceptor_at(context, port)) {}

  void accept() {
    acceptor.async_accept([this](error_code error, tcp::socket socket) {
      if (error == asio::error::operation_aborted) return;
      // One too many is closed at once; those that are there go on.
      if (!error && shared.n_connections < shared.limits.most_connections) {
        std::make_shared<Session>(std::move(socket), shared)->begin();
      }
      accept();
    });
  }

  void watch(const std::atomic<bool>& is_over, asio::steady_timer& timer) {
    timer.expires_after(std::chrono::milliseconds(100));
    timer.async_wait([this, &is_over, &timer](error_code) {
      if (is_over) return context.stop();
      watch(is_over, timer);
    });
  }
};

HttpServer::HttpServer(int port, HttpLimits limits, Handler handler)
    : parts_(std::make_unique<Parts>(port, limits, std::move(handler))) {}

HttpServer::~HttpServer() { parts_->shared.workers.join(); }

int HttpServer::port() const { return parts_->acceptor.local_endpoint().port(); }

void HttpServer::run_until(const std::atomic<bool>& is_over) {
  asio::steady_timer timer(parts_->context);
  parts_->accept();
  parts_->watch(is_over, timer);
  parts_->context.run();
}

}  // namespace houseleek::server
