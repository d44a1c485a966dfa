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

# Make .venv and install the builder with the extras named: set_up '' or set_up '[dev]'.
# Done again only when pyproject.toml or the extras change.
set_up() {
    wanted="$1 $(cksum <"$root/pyproject.toml")"
    if [ "$(cat "$environment/lickwright-installed" 2>/dev/null)" = "$wanted" ] ||
        { [ -z "$1" ] && [ "$(cat "$environment/lickwright-installed" 2>/dev/null)" = "[dev]$wanted" ]; }; then
        return
    fi
    find_python
    say "Setting up .venv (once; a few minutes) ..."
    if ! [ -x "$environment/bin/pip" ]; then
        "$python" -m venv "$environment" >&2 || {
            rm -rf "$environment"
            # Debian keeps ensurepip in a package of its own.
            debian python3-venv && "$python" -m venv "$environment" >&2
        } || exit 2
    fi
    "$environment/bin/pip" install --quiet --disable-pip-version-check --editable "$root$1" >&2 || exit 2
    printf '%s\n' "$wanted" >"$environment/lickwright-installed"
}
