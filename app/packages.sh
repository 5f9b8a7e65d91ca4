# Sourced by app/launch.sh and tests/run.sh: installs the Debian packages named, where any is missing.
install_missing() {
    local missing=()
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
    done
    [ ${#missing[@]} -eq 0 ] && return 0
    local as_root=()
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null || { echo "Please install these packages first (no sudo here): ${missing[*]}" >&2; return 1; }
        as_root=(sudo)
    fi
    echo "Installing: ${missing[*]}"
    "${as_root[@]}" apt-get update -qq
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}"
}

build_packages=(g++ cmake ninja-build ccache qt6-base-dev qt6-pdf-dev qt6-svg-dev qt6-image-formats-plugins
    libqcustomplot-dev libqcustomplot2.1-qt6 libgl-dev libeigen3-dev libceres-dev
    libopencv-core-dev libopencv-imgproc-dev nlohmann-json3-dev libcli11-dev)
test_packages=(libgtest-dev libgmock-dev libgsl-dev libbenchmark-dev gnuplot-nox poppler-utils fonts-dejavu-core)
