#!/usr/bin/env bash
# Sets up what is missing, builds, prints the sample room and says where its pages lie.
set -euo pipefail
top=$(cd "$(dirname "$0")/.." && pwd)
source "$top/tests/setup.sh"
install_missing
build release -DCMAKE_BUILD_TYPE=Release -DDOSEWRIGHT_TESTS=OFF
# The sample lives on one day: the dates on its labels must not run out.
export SOURCE_DATE_EPOCH=1795694400   # 2026-11-26
"$top/.build/release/dosewright" check "$top/samples/millrace/room.yaml"
"$top/.build/release/dosewright" print "$top/samples/millrace/room.yaml" --to "$top/.build/paper" \
  --record "$top/.build/paper/room.record"
echo "The pages lie in $top/.build/paper"
