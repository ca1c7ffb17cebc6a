# Sourced by sample-jobs/run.sh and tests/run.sh: installs Debian packages by name, and builds.
#
#   need PACKAGE...          installs what is missing (as root, or through sudo)
#   build FOLDER TARGET...   configures and builds below .build/, with the options in $CMAKE_OPTIONS, and says how far it is
set -eu
cd "$(dirname "$0")/.."

need() {
  missing=
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || missing="$missing $package"
  done
  [ -n "$missing" ] || return 0
  command -v apt-get >/dev/null || { echo "missing:$missing; this script installs with apt-get (Debian 12)" >&2; exit 3; }
  as_root=
  if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null || { echo "missing:$missing; run as root, or install sudo" >&2; exit 3; }
    as_root=sudo
  fi
  echo "installing:$missing"
  $as_root apt-get update -qq
  # shellcheck disable=SC2086
  DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

build_packages="g++ cmake ninja-build pkg-config libsqlitecpp-dev libsqlite3-dev libboost-dev libboost-program-options-dev
  libxlsxwriter-dev catch2 libtomlplusplus-dev libfmt-dev nlohmann-json3-dev libeigen3-dev libcsv-dev libutf8proc-dev nettle-dev zlib1g-dev libssl-dev libqrcodegencpp-dev"

# How far a build is, from what ninja says on standard input: on a terminal one line that is written over, else a line
# every half minute. The whole of it goes into the log beside the folder.
tell_progress() {
  said=0
  while IFS= read -r line; do
    printf '%s\n' "$line" >&3
    case $line in "at "*) ;; *) continue ;; esac
    # "at 38 of 210 Building CXX object .../src/book/ledger/book.cpp.o" -> "38 of 210  src/book/ledger/book.cpp"
    line=${line#at }
    now=$(date +%s)
    if [ -t 1 ]; then
      what=${line##* }
      what=${what##*.dir/}
      what="${line%% [A-Z]*}  ${what%.o}"
      printf '\r%-76.76s' "$what"
    elif [ $((now - said)) -ge 30 ]; then
      said=$now
      echo "  ${line%% [A-Z]*}"
    fi
  done
  [ ! -t 1 ] || printf '\r%-76s\r' ''
}

build() {
  folder=.build/$1
  shift
  # shellcheck disable=SC2086
  cmake -S . -B "$folder" -G Ninja ${CMAKE_OPTIONS:-} >"$folder.log" 2>&1 || { cat "$folder.log"; exit 1; }
  rm -f "$folder.failed"
  # The status of the first half of a pipe is lost: a file keeps it.
  { NINJA_STATUS='at %f of %t ' cmake --build "$folder" --target "$@" 2>&1 || echo failed >"$folder.failed"; } |
    tell_progress 3>"$folder.log"
  [ ! -e "$folder.failed" ] || { tail -60 "$folder.log"; exit 1; }
}
mkdir -p .build
# What is kept of each book apart from it (its last seal) is kept here, and not in the home of whoever runs this.
export XDG_STATE_HOME="$PWD/.build/state"
