#!/usr/bin/env bash
# Writes requirements.lock (the tool) and requirements-dev.lock (the tool and its tests): exact versions with hashes,
# for Linux, macOS and Windows and every Python from 3.11. Versions that are locked already stay; `lock.sh --upgrade` renews them.
set -eu
cd "$(dirname "$0")/../.."
locker=build/locker
if [ ! -x "$locker/bin/uv" ]; then
    .venv/bin/python -m venv "$locker"
    "$locker/bin/python" -m pip install --quiet --disable-pip-version-check 'uv==0.13.9'
fi
compile=("$locker/bin/uv" pip compile --quiet --universal --python-version 3.11 --generate-hashes --system-certs
    --custom-compile-command 'make lock')
# The build backend is locked too: nothing else is fetched.
echo 'hatchling' | "${compile[@]}" "$@" pyproject.toml - --output-file requirements.lock >/dev/null
"${compile[@]}" "$@" pyproject.toml requirements.lock --extra tests --output-file requirements-dev.lock >/dev/null
