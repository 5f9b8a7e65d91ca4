#!/usr/bin/env bash
# Installs what is missing on Debian 12, builds and runs every test:
# a sanitized build for unit, bad-input and process tests, a Release build for statistics and the desk.
set -euo pipefail
here=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
source "$here/app/packages.sh"
install_missing "${build_packages[@]}" "${test_packages[@]}"
export CCACHE_DIR="${CCACHE_DIR:-$here/.build/ccache}"

configure() { # folder, options ...
    local build="$here/.build/$1"
    shift
    [ -f "$build/build.ninja" ] || cmake -S "$here" -B "$build" -G Ninja -DHEADMARK_WARNINGS_ARE_ERRORS=ON "$@"
}

configure sanitized -DHEADMARK_DESK=OFF -DCMAKE_BUILD_TYPE=Debug -DHEADMARK_SANITIZE=address,undefined
cmake --build "$here/.build/sanitized"
configure statistics -DCMAKE_BUILD_TYPE=Release
cmake --build "$here/.build/statistics" --target release_tests

failed=0
ctest --test-dir "$here/.build/sanitized" -LE "statistics|gui" -j "$(nproc)" --output-on-failure || failed=1
ctest --test-dir "$here/.build/statistics" -L "statistics|gui" -j "$(nproc)" --output-on-failure || failed=1
[ $failed -eq 0 ] && echo "All tests passed."
exit $failed
