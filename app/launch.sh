#!/usr/bin/env bash
# Installs what is missing on Debian 12, builds Headmark and opens the desk on the sample job.
# Without a display it says so and answers the sample on the terminal. With a job file as argument: that one.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
source "$here/app/packages.sh"
install_missing "${build_packages[@]}" >&2

build="$here/.build/release"
[ -f "$build/build.ninja" ] || cmake -S "$here" -B "$build" -G Ninja -DCMAKE_BUILD_TYPE=Release \
    -DHEADMARK_TESTS=OFF >&2
job=${1:-$here/samples/terrace-nursery.job.json}

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    cmake --build "$build" --target headmark headmark-cli >&2
    exec "$build/app/desktop/headmark" "$job"
fi
echo "There is no display here, so the desk cannot open: the job is answered on the terminal." >&2
cmake --build "$build" --target headmark-cli >&2
exec "$build/app/cli/headmark-cli" duty "$job" --table
