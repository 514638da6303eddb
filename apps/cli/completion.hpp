// Completion of words and files for the bash shell.
#pragma once
#include <string_view>

namespace houseleek::cli {

/// To be sourced: source <(houseleek completion bash)
inline constexpr std::string_view bash_completion = R"bash(_houseleek() {
  local word=${COMP_WORDS[COMP_CWORD]}
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    mapfile -t COMPREPLY < <(compgen -W "check study weather order log import export completion --help --version" -- "$word")
    return
  fi
  case ${COMP_WORDS[1]} in
    check | study | weather | order)
      if [[ $word == -* ]]; then
        local options="--json --help"
        [[ ${COMP_WORDS[1]} == study ]] && options+=" --report --engineer --roofer --years --draws --keep"
        [[ ${COMP_WORDS[1]} == weather ]] && options+=" --csv"
        [[ ${COMP_WORDS[1]} == order ]] && options+=" --budget --seasons --most --recipe --pin --ban"
        mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
      elif [[ ${COMP_WORDS[COMP_CWORD - 1]} == --@(report|engineer|roofer|csv) ]]; then
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
      else
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -d -- "$word"; compgen -f -X '!*.toml' -- "$word"
          compgen -f -X '!*.houseleek' -- "$word")
      fi
      ;;
    log | export)
      if ((COMP_CWORD == 2)); then
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -d -- "$word"; compgen -f -X '!*.houseleek' -- "$word")
      elif [[ ${COMP_WORDS[1]} == export ]]; then
        mapfile -t COMPREPLY < <(compgen -W "--json --help --revision --tables" -- "$word")
      fi
      ;;
    import)
      if [[ $word == -* ]]; then
        mapfile -t COMPREPLY < <(compgen -W "--json --help --to --note --logger --clock --date-order --unit" -- "$word")
      else
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -d -- "$word"; compgen -f -X '!*.toml' -- "$word"
          compgen -f -X '!*.houseleek' -- "$word")
      fi
      ;;
    completion) mapfile -t COMPREPLY < <(compgen -W "bash" -- "$word") ;;
  esac
}
complete -F _houseleek houseleek
)bash";

}  // namespace houseleek::cli
