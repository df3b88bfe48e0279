#!/usr/bin/env bash
# Sets up what is missing, builds with warnings as errors, checks format and lint, and runs the tests,
# once plain and once under AddressSanitizer and UndefinedBehaviorSanitizer.
set -euo pipefail
top=$(cd "$(dirname "$0")/.." && pwd)
source "$top/tests/setup.sh"
install_missing
cd "$top"

mapfile -t sources < <(git ls-files 'src/*.cpp' 'src/*.hpp' 'include/*.hpp' 'tests/*.cpp' 'tests/*.hpp')
clang-format --dry-run --Werror "${sources[@]}"

build dev -DCMAKE_BUILD_TYPE=RelWithDebInfo
build asan -DCMAKE_BUILD_TYPE=Debug -DDOSEWRIGHT_SANITIZE=ON

# A source that was clean is looked at again only when it, a header or the rules have changed.
stamps="$top/.build/tidy"
mkdir -p "$stamps"
headers=$(cat .clang-tidy $(git ls-files 'src/*.hpp' 'include/*.hpp') | sha256sum | cut -c1-16)
export stamps headers top
tidy_one() {
  local stamp
  stamp="$stamps/$( (echo "$headers"; cat "$1") | sha256sum | cut -c1-32)"
  [ -f "$stamp" ] && return 0
  clang-tidy -p "$top/.build/dev" --quiet "$1" 2>/dev/null && touch "$stamp"
}
export -f tidy_one
git ls-files 'src/*.cpp' | xargs -P "$(nproc)" -I{} bash -c 'tidy_one {}'

export UBSAN_OPTIONS=print_stacktrace=1
ctest --test-dir .build/dev --output-on-failure -j "$(nproc)"
ctest --test-dir .build/asan --output-on-failure -j "$(nproc)"
