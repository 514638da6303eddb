// Who may ask: only a page that this program has opened, on this machine.
#pragma once
#include <optional>
#include <string>

#include "http.hpp"

namespace houseleek::server {

/// 256 bits of the system's randomness, in hexadecimal. Errors: std::runtime_error.
[[nodiscard]] std::string new_token();

/// The answer to a request that must not go further; nothing for one that may. Host and Origin must name this machine
/// and port (a name that leads here by another server's doing does not); what is asked of the door is a POST of JSON
/// with the token. What is no question (the page's own files) needs no token and holds nothing of the roof.
[[nodiscard]] std::optional<Response> refuse_stranger(const Request& request, const std::string& token, int port);

/// A document with a sentence for a person.
[[nodiscard]] Response failure(int status, const std::string& sentence);

}  // namespace houseleek::server
