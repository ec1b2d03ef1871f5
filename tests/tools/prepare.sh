#!/usr/bin/env bash
# Makes a checkout ready: system packages first, then .venv with the locked versions. A second run only looks.
#   prepare.sh demo    what building booklets needs
#   prepare.sh test    the same, and what the tests need
# PYTHON names the interpreter for a new .venv; without it, the first of python3, python3.14 … 3.11 that is new enough.
set -eu
cd "$(dirname "$0")/../.."
purpose=${1:?demo or test}

# What WeasyPrint draws text with. Without libharfbuzz-subset0 it falls back to another subsetter, and other bytes come out.
LIBRARIES=(libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 fontconfig)
# command:package, for what the tests look at the outputs with.
TEST_COMMANDS=(chromium:chromium pdftoppm:poppler-utils ffprobe:ffmpeg)

say() { printf '%s\n' "$*" >&2; }

# Which of these packages are not installed? One a line.
missing_packages() {
    local package
    for package in "$@"; do
        dpkg-query --show --showformat='${db:Status-Status}' "$package" 2>/dev/null | grep -qx installed || echo "$package"
    done
}

# Debian's packages, as root or through a sudo that asks nothing; otherwise a sentence that says what to run.
install_packages() {
    local missing sudo=()
    mapfile -t missing < <(missing_packages "$@")
    [ ${#missing[@]} -gt 0 ] || return 0
    if [ "$(id -u)" -ne 0 ]; then
        if ! sudo -n true 2>/dev/null; then
            say "Notchbook needs packages of your system that are not installed, and may not install them itself. Please run"
            say "    sudo apt-get install ${missing[*]}"
            say "and then the same make command again."
            exit 1
        fi
        sudo=(sudo -n)
    fi
    say "Installing from your system's packages: ${missing[*]}"
    local apt=("${sudo[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -qq -o DPkg::Lock::Timeout=300)
    local install=("${apt[@]}" install --yes --no-install-recommends "${missing[@]}")
    # A fresh machine has no package lists, and old lists name files that are gone: then fetch the lists first.
    if ! "${install[@]}" </dev/null >/dev/null 2>&1; then
        "${apt[@]}" update </dev/null
        "${install[@]}" </dev/null >/dev/null
    fi
}

new_enough() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; }

find_python() {
    local name
    for name in ${PYTHON:-python3 python3.14 python3.13 python3.12 python3.11}; do
        if new_enough "$name"; then echo "$name"; return; fi
    done
    say "Notchbook needs Python 3.11 or newer, and found none. Where it has another name: make PYTHON=/path/to/python3 …"
    exit 1
}

make_venv() {
    local python
    python=$(find_python)
    # Debian keeps these two modules in a package of their own.
    if ! "$python" -c 'import ensurepip, venv' 2>/dev/null; then
        if command -v apt-get >/dev/null; then
            install_packages "$("$python" -c 'import sys; print("python%d.%d-venv" % sys.version_info[:2])')"
        else
            say "$python cannot make virtual environments: its modules venv and ensurepip are missing. Please install them."
            exit 1
        fi
    fi
    say "Making .venv with $("$python" --version)"
    "$python" -m venv --clear .venv
}

# The stamp holds what was installed from, so that a changed lock, or a new Python, installs again.
stamp_text() { cat "$1" pyproject.toml .venv/pyvenv.cfg; }

# Its python runs, is new enough, and its commands still name this place: a folder that was moved has them wrong.
venv_is_sound() {
    new_enough .venv/bin/python && .venv/bin/python -c 'import pip' 2>/dev/null &&
        grep --quiet --fixed-strings "$(pwd -P)/.venv/" .venv/bin/pip
}

install_locked() {
    local lock=$1 stamp=.venv/.ready-$purpose
    if [ -f "$stamp" ] && stamp_text "$lock" | cmp -s - "$stamp"; then return; fi
    say "Installing the locked versions of $lock into .venv"
    local pip=(.venv/bin/python -m pip --disable-pip-version-check --no-input --quiet install)
    "${pip[@]}" --require-hashes --requirement "$lock" </dev/null
    # The lock holds the build backend: nothing more is fetched.
    "${pip[@]}" --no-deps --no-build-isolation --editable . </dev/null
    check_libraries
    stamp_text "$lock" >"$stamp"
}

# Where there is no apt, WeasyPrint itself tells whether the libraries are there.
check_libraries() {
    if ! .venv/bin/python -c 'import weasyprint' 2>build/prepare.log; then
        say "WeasyPrint, which sets the booklets, does not find Pango. Please install it and run the same command again:"
        say "    macOS      brew install pango        (and: export DYLD_FALLBACK_LIBRARY_PATH=\"\$(brew --prefix)/lib\")"
        say "    Fedora     sudo dnf install pango harfbuzz fontconfig"
        say "    Arch       sudo pacman -S pango harfbuzz fontconfig"
        say "Its own words are in build/prepare.log."
        exit 1
    fi
    rm -f build/prepare.log
}

mkdir -p build
packages=("${LIBRARIES[@]}")
lock=requirements.lock
if [ "$purpose" = test ]; then
    lock=requirements-dev.lock
    for pair in "${TEST_COMMANDS[@]}"; do
        command -v "${pair%%:*}" >/dev/null || packages+=("${pair##*:}")
    done
fi
if command -v apt-get >/dev/null; then install_packages "${packages[@]}"; fi
venv_is_sound || make_venv
install_locked "$lock"
