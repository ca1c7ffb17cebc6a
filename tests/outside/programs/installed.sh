#!/bin/sh
# The program as it is installed and packaged: laid into a staging folder by cmake, made into a Debian package by cpack,
# unpacked somewhere else and run from there; the manual page and the completions judged by the programs that read them; the
# package installed by apt into the root of a machine made new, with nothing of this one's, and run there.
#
#   installed.sh BUILD FOLDER
#
# BUILD holds a finished build of the program. Ends with status 1 and a line for each thing that is not so.
set -u
build=$(cd "$1" && pwd)
mkdir -p "$2"
folder=$(cd "$2" && pwd)
bad=0
looked=0
expect() { # expect WHAT COMMAND...: the command has to succeed
  what=$1
  shift
  looked=$((looked + 1))
  "$@" >"$folder/said" 2>&1 || { echo "not so: $what"; sed 's/^/    /' "$folder/said" | tail -5; bad=1; }
}

# Installed below a prefix, by cmake alone.
expect "cmake --install lays the program down" cmake --install "$build" --prefix "$folder/prefix"
for file in bin/nonrunner share/man/man1/nonrunner.1.gz share/bash-completion/completions/nonrunner \
  share/zsh/vendor-completions/_nonrunner share/fish/vendor_completions.d/nonrunner.fish share/doc/nonrunner/README.md \
  share/doc/nonrunner/sample-jobs/sprat/job.toml; do
  expect "$file is installed" test -s "$folder/prefix/$file"
done

# As a package: its fields, what it depends on, and the program run from where it was unpacked.
expect "cpack makes a package" sh -c "cd '$build' && cpack -G DEB -B '$folder/package'"
package=$(ls "$folder"/package/nonrunner_*.deb 2>/dev/null)
expect "there is one package" test -f "$package"
expect "it is called nonrunner" sh -c "dpkg-deb -f '$package' Package | grep -qx nonrunner"
for library in libc6 libsqlite3-0 libfmt9 libxlsxwriter4 libtomlplusplus3; do
  expect "it depends on $library" sh -c "dpkg-deb -f '$package' Depends | grep -qE '(^|, )$library([ ,]|\$)'"
done
expect "it unpacks" dpkg-deb -x "$package" "$folder/unpacked"
program=$folder/unpacked/usr/bin/nonrunner
unset NONRUNNER_BOOK XDG_DATA_HOME
export HOME="$folder/home" XDG_STATE_HOME="$folder/home/.local/state"
mkdir -p "$HOME"
cd "$folder" || exit 1
expect "the unpacked program starts a book where nothing is named" "$program" start
expect "the book stands in the home" test -s "$HOME/.local/share/nonrunner/shop.book"
expect "money goes in" "$program" owner in 2500 --purse cash
expect "a car is bought" "$program" buy pip 900 --fee title=62 --purse cash
expect "it is shown" sh -c "'$program' show pip | grep -q 962.00"
expect "a sample of the package is appraised" "$program" appraise "$folder/unpacked/usr/share/doc/nonrunner/sample-jobs/sprat/job.toml"
expect "a workbook is written" "$program" workbook shopping "$folder/shopping.xlsx"
expect "the book is sound" "$program" check

# The manual page: no complaint of the two programs that set one, every command in it.
page=$folder/unpacked/usr/share/man/man1/nonrunner.1.gz
# It bears no day, so that the same sources make the same page.
expect "mandoc finds nothing wrong with the page" sh -c "! gzip -dc '$page' | mandoc -T lint -W warning | grep -v 'missing date'"
expect "the page can be set" sh -c "gzip -dc '$page' | mandoc -T utf8 >'$folder/page'"
col -b <"$folder/page" >"$folder/plain-page" 2>/dev/null || sed 's/.\x08//g' "$folder/page" >"$folder/plain-page"
commands=$("$program" --help | sed -n '/^Deciding/,/^What to say/s/^  \([a-z-]*\)  .*/\1/p')
expect "the overview lists commands" test "$(echo "$commands" | wc -l)" -gt 50
for command in $commands; do
  expect "the page has $command" grep -qE "nonrunner $command\b" "$folder/plain-page"
done

# The completions, as the three shells use them.
bash_file=$folder/unpacked/usr/share/bash-completion/completions/nonrunner
cat >"$folder/complete.bash" <<'ASK'
. "$1"; shift
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _nonrunner; printf '%s\n' "${COMPREPLY[@]}"
ASK
expect "bash completes a command" sh -c "bash '$folder/complete.bash' '$bash_file' nonrunner adv | grep -qx advertise"
expect "bash completes an option" sh -c "bash '$folder/complete.bash' '$bash_file' nonrunner sell pip 5 --com | grep -qx -e --commission"
expect "bash completes a topic" sh -c "bash '$folder/complete.bash' '$bash_file' nonrunner help job | grep -qx job-file"
expect "bash leaves a value to its files" sh -c "test -z \"\$(bash '$folder/complete.bash' '$bash_file' nonrunner receipt --file pa)\""
expect "fish completes a command" sh -c "fish -c 'source \"$folder/unpacked/usr/share/fish/vendor_completions.d/nonrunner.fish\"; complete -C \"nonrunner adv\"' | grep -q '^advertise'"
expect "fish completes an option" sh -c "fish -c 'source \"$folder/unpacked/usr/share/fish/vendor_completions.d/nonrunner.fish\"; complete -C \"nonrunner sell pip 5 --com\"' | grep -q '^--commission'"
expect "zsh reads its file" zsh -n "$folder/unpacked/usr/share/zsh/vendor-completions/_nonrunner"
cat >"$folder/complete.zsh" <<'ASK'
# The completion system stood in for: what it is handed is printed.
_describe() { print -l -- "${(@P)2}" }
_values() { shift; print -l -- "$@" }
_arguments() { print -l -- "$@" }
words=(nonrunner "$2" ''); CURRENT=$3
source "$1"
ASK
expect "zsh is handed the commands" sh -c "zsh -f '$folder/complete.zsh' '$folder/unpacked/usr/share/zsh/vendor-completions/_nonrunner' '' 2 | grep -q '^advertise:'"
expect "zsh is handed the options" sh -c "zsh -f '$folder/complete.zsh' '$folder/unpacked/usr/share/zsh/vendor-completions/_nonrunner' sell 3 | grep -q '^--commission\\['"
# A machine made new, from the sources of this one: apt finds what the package says it needs, and nothing else is there.
sources=/etc/apt/sources.list.d/debian.sources
[ -s "$sources" ] || sources=/etc/apt/sources.list
cat >"$folder/day" <<'DAY'
set -eu
apt-get install -y -qq --no-install-recommends /tmp/nonrunner.deb
export HOME=/root
cd /usr/share/doc/nonrunner/sample-jobs
nonrunner start
nonrunner owner in 2500 --purse cash
nonrunner buy pip 900 --fee title=62 --purse cash
nonrunner show pip | grep -q 962.00
nonrunner appraise sprat/job.toml
nonrunner workbook shopping /tmp/shopping.xlsx
nonrunner check
DAY
cp "$package" "$folder/nonrunner.deb"
# shellcheck disable=SC2016
expect "apt installs the package on a machine made new, and it keeps a book there" mmdebstrap --quiet --variant=minbase \
  --aptopt='Acquire::Languages "none"' --customize-hook="copy-in $folder/nonrunner.deb $folder/day /tmp" \
  --customize-hook='chroot "$1" sh /tmp/day' bookworm /dev/null "$sources"
echo "$looked things looked at in the installed program"
exit "$bad"
