// What the commands of trials read before they answer.
#include "trial_files.hpp"

#include <fmt/format.h>

#include "files.hpp"
#include "studies/trial_wish.hpp"

namespace houseleek::cli {

Result<OpenTrial> open_trial(const studies::NamedText& file, const catalogue::Catalogue& catalogue,
                             const std::string& name) {
  Result<design::RawDesign> raw = design::parse_design(file.text, file.name);
  if (!raw) return Unexpected{raw.error()};
  Result<design::ValidDesign> design = design::validate_design(raw.value(), catalogue);
  if (!design) return Unexpected{design.error()};
  const Result<std::size_t> trial = studies::find_trial(*design.value(), name);
  if (!trial) return Unexpected{trial.error()};
  return OpenTrial{file, std::move(raw).value(), std::move(design).value(), trial.value()};
}

bool is_refused_page(const std::string& page_path, const std::string& input_path) {
  if (page_path.empty() || !is_same_file(page_path, input_path)) return false;
  write_message("houseleek: the page would be written over what it is made from; give it another name\n");
  return true;
}

}  // namespace houseleek::cli
