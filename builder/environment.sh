# Read by builder/publish.sh and tests/run.sh: makes .venv in the repository and installs the builder into it.
# A bare Debian machine with Python 3.11 is enough; what Debian keeps in packages of their own is installed
# when we are root or may use sudo.

root=$(CDPATH="" cd -- "$(dirname -- "$0")/.." && pwd)
environment=$root/.venv

say() { printf '%s\n' "$*" >&2; }

# Install Debian packages: debian PACKAGE ...
debian() {
    say "Installing $* ..."
    if [ "$(id -u)" -eq 0 ]; then as_root=''; else as_root='sudo'; fi
    command -v apt-get >/dev/null && { [ -z "$as_root" ] || command -v sudo >/dev/null; } || {
        say "Please install $* by hand: this is no Debian machine, or you may not install here."
        return 1
    }
    $as_root apt-get update -q >&2 &&
        $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "$@" >&2
}

new_enough() { "$1" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; }

# Find a Python of 3.11 or later; $PYTHON goes before all others.
find_python() {
    for python in ${PYTHON:-} python3 python3.14 python3.13 python3.12 python3.11; do
        if new_enough "$python"; then return; fi
    done
    debian python3 && python=python3 && new_enough "$python" || {
        say "Lickwright needs Python 3.11 or later."
        exit 2
    }
}

# Make .venv and install what a lock file names, then the builder itself: set_up builder|tests.
# Done again only when the lock file or pyproject.toml changes; what the tests need serves to publish too.
set_up() {
    stamp=$environment/installed-for
    if installed tests || installed "$1"; then return; fi
    if ! [ -x "$environment/bin/pip" ]; then
        find_python
        say "Setting up .venv (once; a minute or two) ..."
        "$python" -m venv "$environment" >&2 || {
            rm -rf "$environment"
            debian python3-venv && "$python" -m venv "$environment" >&2  # Debian keeps ensurepip there
        } || exit 2
    fi
    pip="$environment/bin/pip --disable-pip-version-check --quiet install"
    $pip --require-hashes --requirement "$root/$1/requirements.lock" >&2 || exit 2
    $pip --no-deps --no-build-isolation --editable "$root" >&2 || exit 2
    state "$1" >"$stamp"
}

state() { printf '%s ' "$1" && cat "$root/pyproject.toml" "$root/$1/requirements.lock" | cksum; }

installed() { [ -x "$environment/bin/lickwright" ] && [ "$(cat "$stamp" 2>/dev/null)" = "$(state "$1")" ]; }
