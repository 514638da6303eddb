// Who may ask: only a page that this program has opened, on this machine.
#include "guard.hpp"

#include <fmt/format.h>
#include <sys/random.h>

#include <array>
#include <stdexcept>

#include "report/json_parts.hpp"

namespace houseleek::server {
namespace {

bool is_here(const std::string& host, int port) {
  return host == fmt::format("127.0.0.1:{}", port) || host == fmt::format("localhost:{}", port);
}

/// Takes as long for a wrong first sign as for a wrong last one.
bool is_same(const std::string& a, const std::string& b) {
  if (a.size() != b.size()) return false;
  unsigned difference = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    difference |= static_cast<unsigned>(static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]));
  }
  return difference == 0;
}

}  // namespace

std::string new_token() {
  std::array<unsigned char, 32> bytes{};
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size())) {
    throw std::runtime_error("the system gives no random numbers");
  }
  std::string token;
  for (const unsigned char byte : bytes) token += fmt::format("{:02x}", byte);
  return token;
}

Response failure(int status, const std::string& sentence) {
  return {status, "application/json; charset=utf-8", report::text_from(report::Json{{"error", sentence}})};
}

std::optional<Response> refuse_stranger(const Request& request, const std::string& token, int port) {
  if (!is_here(request.host, port)) return failure(403, "this page is served to this machine alone");
  if (!request.origin.empty()) {
    constexpr std::string_view scheme = "http://";
    const bool is_own = request.origin.rfind(scheme, 0) == 0 && is_here(request.origin.substr(scheme.size()), port);
    if (!is_own) return failure(403, "another page may not ask here");
  }
  if (!request.fetch_site.empty() && request.fetch_site != "same-origin" && request.fetch_site != "none") {
    // A link from elsewhere may lead to the page, which asks with its token or not at all.
    if (request.target.rfind("/api/", 0) == 0) return failure(403, "another page may not ask here");
  }
  if (request.target.rfind("/api/", 0) != 0) {
    if (request.method != "GET" && request.method != "HEAD") return failure(405, "only GET");
    return std::nullopt;
  }
  if (request.method != "POST") return failure(405, "only POST");
  if (!is_same(request.token, token)) return failure(401, "the token is missing or wrong: open the page anew");
  if (request.content_type.rfind("application/json", 0) != 0) return failure(415, "only application/json");
  return std::nullopt;
}

}  // namespace houseleek::server
