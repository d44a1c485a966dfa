#!/bin/sh
# Publish the course in content/ into site/, set-up included. Options go to `lickwright publish`.
set -eu
. "$(dirname -- "$0")/environment.sh"
set_up builder
cd "$root"
exec "$environment/bin/lickwright" publish "$@"
