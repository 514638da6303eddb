// The page's own files, built into the program.
#include "page_files.hpp"

#include "embedded_page.hpp"
#include "guard.hpp"
#include "report/palette.hpp"

namespace houseleek::server {
namespace {

/// The colours of reports, for the page: one list of them in the whole program.
std::string colours() {
  return ":root{color-scheme:light dark;" + report::css_from(report::light_palette()) +
         "}\n@media screen and (prefers-color-scheme:dark){:root{" + report::css_from(report::dark_palette()) + "}}\n";
}

}  // namespace

bool has_page() { return !embedded_page("index.html").empty(); }

Response page_file(const std::string& target) {
  const auto own = [](const char* name, const char* type) {
    return Response{200, type, std::string(embedded_page(name))};
  };
  if (target == "/" || target == "/index.html") return own("index.html", "text/html; charset=utf-8");
  if (target == "/page.js") return own("page.js", "text/javascript; charset=utf-8");
  if (target == "/page.css") return own("page.css", "text/css; charset=utf-8");
  if (target == "/colours.css") return {200, "text/css; charset=utf-8", colours()};
  if (target == "/mark.svg") return own("mark.svg", "image/svg+xml");
  return failure(404, "there is no such page");
}

}  // namespace houseleek::server
