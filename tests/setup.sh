# Sourced by samples/demo.sh and tests/run.sh: installs the Debian packages that are missing, from the
# one list in packages.txt, and builds. Expects $top to be the project's folder.

install_missing() {
  local missing=()
  local package
  while read -r package; do
    [ -n "$package" ] || continue
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done < "$top/tests/packages.txt"
  [ ${#missing[@]} -gt 0 ] || return 0
  echo "Installing: ${missing[*]}"
  local as_root=()
  [ "$(id -u)" -eq 0 ] || as_root=(sudo)
  "${as_root[@]}" apt-get update -qq
  "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}

# build FOLDER [CMAKE OPTION...]: configures .build/FOLDER once and builds it.
build() {
  local folder="$top/.build/$1"
  shift
  if [ ! -f "$folder/build.ninja" ]; then
    cmake -S "$top" -B "$folder" -G Ninja -DCMAKE_CXX_COMPILER_LAUNCHER=ccache "$@" >/dev/null
  fi
  cmake --build "$folder" -- --quiet
}
