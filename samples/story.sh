#!/usr/bin/env bash
# A story in five days: a stock is mixed, labelled and charted, one batch is weighed wrong, the recipe
# changes, and what hangs on the wall is put right. Ends with the change notice and only the documents
# that changed. Sets up what is missing first.
set -euo pipefail
top=$(cd "$(dirname "$0")/.." && pwd)
source "$top/tests/setup.sh"
program=${DOSEWRIGHT:-}
if [ -z "$program" ]; then
  install_missing
  build release -DCMAKE_BUILD_TYPE=Release -DDOSEWRIGHT_TESTS=OFF
  program=$top/.build/release/dosewright
fi
out=${1:-$top/.build/story}
rm -rf "$out"
mkdir -p "$out"
room=$out/room.yaml
cp "$top/samples/tidegate/room.yaml" "$room"

# Says the day and the command, and runs it on that day. Status 1 is a finding, which a story has.
on() {
  local day=$1 status=0
  shift
  printf '\n== %s  dosewright %s\n' "$day" "${*//$out\//}"
  SOURCE_DATE_EPOCH=$(date -u -d "$day 09:00" +%s) "$program" "$@" || status=$?
  [ "$status" -le 1 ] || exit "$status"
}

on 2026-09-01 print "$room" --to "$out/1-print" --proof png
on 2026-09-01 label "$room" --stock conditioner --to "$out/2-label" --proof png
on 2026-09-15 label "$room" --stock conditioner --weighed "40 g" --to "$out/3-weighed-wrong" --proof png
on 2026-09-15 label "$room" --stock conditioner --batch 2 --anew --to "$out/4-mended" --proof png

printf '\n== 2026-10-06  the recipe becomes stronger: 60 g is now 75 g\n'
sed -i -e 's/thiosulfate: 60 g/thiosulfate: 75 g/' \
  -e '/conditioner\]$/,/revised:/ s/revision: 1/revision: 2\n    replaces: 1/' \
  -e '/stock: conditioner$/,/revised:/ s/revision: 1/revision: 2\n    replaces: 1/' \
  -e '/conditioner\]$/,/revised:/ s/revised: 2026-09-01/revised: 2026-10-06/' \
  -e '/stock: conditioner$/,/revised:/ s/revised: 2026-09-01/revised: 2026-10-06/' "$room"
on 2026-10-06 reprint "$room" --to "$out/5-reprint" --dry-run
on 2026-10-06 reprint "$room" --to "$out/5-reprint" --proof png
on 2026-10-06 record "$room" --gone "conditioner 1"
on 2026-10-20 reprint "$room" --to "$out/6-clean" --clean --proof png
on 2026-11-10 record "$room"

echo
echo "The pages lie in $out"
