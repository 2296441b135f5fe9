# shellcheck shell=bash disable=SC2034
# Shared by ./homestretch, ./start and ./test. Sets $root, the folder of the checkout.
root=$(cd -- "$(dirname -- "$(readlink -f -- "${BASH_SOURCE[0]}")")/.." && pwd)
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 DOTNET_SKIP_FIRST_TIME_EXPERIENCE=1

# need_dotnet: the .NET 10 SDK, or one plain sentence and exit status 69 (EX_UNAVAILABLE).
need_dotnet() {
  if ! command -v dotnet >/dev/null; then
    echo "$(basename -- "$0"): the .NET 10 SDK is missing: there is no 'dotnet' on the PATH. Install it from https://dotnet.microsoft.com/download/dotnet/10.0 and run this again." >&2
    exit 69
  fi
  if ! dotnet --list-sdks | grep -q '^10\.'; then
    echo "$(basename -- "$0"): the .NET 10 SDK is missing: 'dotnet --list-sdks' names $(dotnet --list-sdks | cut -d' ' -f1 | paste -sd, - | sed 's/^$/none/'). Install version 10 from https://dotnet.microsoft.com/download/dotnet/10.0 and run this again." >&2
    exit 69
  fi
}

# need_command COMMAND PACKAGE...: installs Debian packages when the command is not there, and says so.
need_command() {
  local command=$1
  shift
  command -v "$command" >/dev/null && return
  local -a admin=()
  if [[ $(id -u) -ne 0 ]]; then
    if ! command -v sudo >/dev/null; then
      echo "$(basename -- "$0"): '$command' is missing and needs the Debian packages: $*. Install them as root and run this again." >&2
      exit 69
    fi
    admin=(sudo)
  fi
  echo "Installing from Debian: $*" >&2
  if ! { "${admin[@]}" apt-get update -qq && "${admin[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@"; } >&2; then
    echo "$(basename -- "$0"): could not install $*; see above." >&2
    exit 69
  fi
}

# want_chromium: PDFs of handouts need a Chromium. Installs Debian's where that needs no question; else says so and goes on.
want_chromium() {
  local command
  [[ -n ${HOMESTRETCH_CHROMIUM:-} ]] && return
  for command in chromium chromium-browser google-chrome microsoft-edge; do
    command -v "$command" >/dev/null && return
  done
  local -a admin=()
  if [[ $(id -u) -ne 0 ]]; then
    admin=(sudo -n)
  fi
  if command -v apt-get >/dev/null && { [[ $(id -u) -eq 0 ]] || sudo -n true 2>/dev/null; }; then
    echo "Installing Debian's chromium, for handouts as PDF ('./start --no-install' does without) ..." >&2
    if "${admin[@]}" apt-get update -qq >/dev/null 2>&1 && "${admin[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium fonts-dejavu-core >/dev/null 2>&1; then
      return
    fi
  fi
  echo "Handouts as PDF need Chromium, Google Chrome or Microsoft Edge, and none is here (on Debian: apt install chromium, as root). Everything else works; handouts also print from the browser." >&2
}

# is_current STAMP PATH...: whether no file or folder under the paths is newer than the stamp.
# Folders count too: a deleted file shows only there.
is_current() {
  local stamp=$1
  shift
  [[ -f $stamp && -z $(find "$@" \( -name bin -o -name obj \) -prune -o -newer "$stamp" -print -quit) ]]
}
