// Completion of words and files for the bash shell.
#pragma once
#include <string_view>

namespace houseleek::cli {

/// To be sourced: source <(houseleek completion bash)
inline constexpr std::string_view bash_completion = R"bash(_houseleek() {
  local word=${COMP_WORDS[COMP_CWORD]}
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    mapfile -t COMPREPLY < <(compgen -W "new check study weather order week water plants log trial upkeep open import export completion --help --version" -- "$word")
    return
  fi
  case ${COMP_WORDS[1]} in
    check | study | weather | order | week | water)
      if [[ $word == -* ]]; then
        local options="--json --help"
        [[ ${COMP_WORDS[1]} == study ]] && options+=" --report --engineer --roofer --years --draws --on --keep"
        [[ ${COMP_WORDS[1]} == weather ]] && options+=" --csv"
        [[ ${COMP_WORDS[1]} == order ]] && options+=" --budget --seasons --most --recipe --pin --ban"
        [[ ${COMP_WORDS[1]} == week ]] && options+=" --on --max --min --rain --can --gust"
        [[ ${COMP_WORDS[1]} == water ]] && options+=" --on --max --min --rain --filled --can --years --catchment \
          --away-from --away-to --sheet --salt --rinse --rinse-from --rinse-to --rinse-water --report"
        mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
      elif [[ ${COMP_WORDS[COMP_CWORD - 1]} == --@(report|engineer|roofer|csv|sheet) ]]; then
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
      else
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -d -- "$word"; compgen -f -X '!*.toml' -- "$word"
          compgen -f -X '!*.houseleek' -- "$word")
      fi
      ;;
    plants)
      if [[ $word == -* ]]; then
        mapfile -t COMPREPLY < <(compgen -W "--json --help --room --recipe --for --plant --raise --by --from --on" \
          -- "$word")
      elif [[ ${COMP_WORDS[COMP_CWORD - 1]} == --for ]]; then
        mapfile -t COMPREPLY < <(compgen -W "cool bloom bees food hold windbreak" -- "$word")
      elif [[ ${COMP_WORDS[COMP_CWORD - 1]} == --from ]]; then
        mapfile -t COMPREPLY < <(compgen -W "seed cuttings leaves division offsets runners bulbs pads" -- "$word")
      elif ((COMP_CWORD == 2)); then
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -d -- "$word"; compgen -f -X '!*.toml' -- "$word"
          compgen -f -X '!*.houseleek' -- "$word")
      fi
      ;;
    log | export | upkeep)
      if ((COMP_CWORD == 2)); then
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -d -- "$word"; compgen -f -X '!*.houseleek' -- "$word")
      elif [[ ${COMP_WORDS[1]} == export ]]; then
        mapfile -t COMPREPLY < <(compgen -W "--json --help --revision --tables" -- "$word")
      elif [[ ${COMP_WORDS[1]} == upkeep && ${COMP_WORDS[COMP_CWORD - 1]} == --report ]]; then
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
      elif [[ ${COMP_WORDS[1]} == upkeep ]]; then
        mapfile -t COMPREPLY < <(compgen -W "--json --help --on --before-storm --after-storm --taking-off --report" \
          -- "$word")
      fi
      ;;
    trial)
      if ((COMP_CWORD == 2)); then
        mapfile -t COMPREPLY < <(compgen -W "plan read judge fit --help" -- "$word")
      elif [[ $word == -* ]]; then
        local options="--trial --json --help"
        case ${COMP_WORDS[2]} in
          plan) options+=" --name --side --place --difference --measure --loggers --modules --adviser --keep" ;;
          read) options+=" --at --table --unit --who" ;;
          judge) options+=" --report" ;;
          fit) options+=" --property --accept --report" ;;
        esac
        mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
      elif [[ ${COMP_WORDS[COMP_CWORD - 1]} == --@(report|table) ]]; then
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
      elif [[ ${COMP_WORDS[COMP_CWORD - 1]} == --property ]]; then
        mapfile -t COMPREPLY < <(compgen -W "gap conductivity wet evaporation finish" -- "$word")
      elif ((COMP_CWORD == 3)); then
        compopt -o filenames
        [[ ${COMP_WORDS[2]} == plan ]] && mapfile -t COMPREPLY < <(compgen -f -X '!*.toml' -- "$word")
        mapfile -t -O "${#COMPREPLY[@]}" COMPREPLY < <(compgen -d -- "$word"; compgen -f -X '!*.houseleek' -- "$word")
      fi
      ;;
    new | open)
      if [[ $word == -* ]]; then
        local options="--help"
        [[ ${COMP_WORDS[1]} == open ]] && options+=" --port --no-browser"
        [[ ${COMP_WORDS[1]} == new ]] && options+=" --from --answers --json"
        mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word")
      else
        compopt -o filenames
        mapfile -t COMPREPLY < <(compgen -f -- "$word")
      fi
      ;;
    import)
      if [[ $word == -* ]]; then
        mapfile -t COMPREPLY < <(compgen -W "--json --help --to --note --events --logger --clock --date-order --unit" -- "$word")
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
