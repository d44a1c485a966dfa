#!/bin/sh
# Run the tests, set-up included: sh tests/run.sh [--full] [pytest options].
# Without --full the slow tests and those in a browser are left out.
set -eu
. "$(dirname -- "$0")/../builder/environment.sh"
set_up tests
cd "$root"
PATH=$environment/bin:$PATH

if [ "${1:-}" = --full ]; then
    shift
    command -v chromium >/dev/null || debian chromium
    command -v pdftotext >/dev/null || debian poppler-utils
    fc-list 2>/dev/null | grep -q . || debian fontconfig fonts-dejavu-core fonts-liberation
    ruff check builder tests
    ruff format --check builder tests
    mypy
    lint-imports
    set -- -m '' "$@"
fi
exec pytest "$@"
