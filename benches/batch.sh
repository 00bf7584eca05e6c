#!/bin/sh
# Batch runs of whole processes: figures and JSON of many rows, a plain script with exact fractions doing (some of) the
# same sums as reference, a run of styles with plan and sheets, and a long table streamed. GNU time measures memory.
#
#     cargo build --release && benches/batch.sh [ROWS] [LONG]
set -eu
here=$(dirname "$0")
program=${CARGO_TARGET_DIR:-$here/../target}/release/benchrule
rows=${1:-10000}
long=${2:-1000000}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
script="$here/batch.py"

# A command whose answers go to a file: seconds of processor for itself and for the system, seconds of wall time, KiB.
clock() {
    to=$1
    shift
    /usr/bin/time -o "$work/time" -f '%U %S %e %M' "$@" >"$to"
    cat "$work/time"
}

say() {
    printf '%-46s user %8s s, system %6s s, wall %8s s, %9s KiB\n' "$@"
}

# The processor's seconds, user and system together.
both() {
    echo "$1 $2" | awk '{ print $1 + $2 }'
}

# The best of five.
best() {
    for _ in 1 2 3 4 5; do clock "$@"; done | sort -n | head -n 1
}

python3 "$script" rows "$rows" >"$work/jobs.csv"
set -- $(best "$work/ours" "$program" --home "$work" batch "$work/jobs.csv" --json)
ours=$(both "$@")
say "$rows rows, every figure, as JSON" "$@"
set -- $(best "$work/one" "$program" --home "$work" batch "$work/jobs.csv" --json --threads 1)
say "the same on one thread" "$@"
cmp "$work/ours" "$work/one"
set -- $(clock "$work/theirs" python3 "$script" make "$work/jobs.csv")
say "$rows rows by the script, 128 of 143 amounts each" "$@"
python3 "$script" check "$work/jobs.csv" "$work/ours"
echo "$(both "$@") $ours" | awk '{ printf "ours takes one part in %.0f of the processor\n", $1 / $2 }'

python3 "$script" works 100 >"$work/show.csv"
styles() {
    rm -rf "$work/out"
    clock "$work/said" "$program" --home "$work" batch "$work/show.csv" --out "$work/out" --plan
}
set -- $(for _ in 1 2 3 4 5; do styles; done | sort -n | head -n 1)
say "100 rows by styles, with plan and sheets" "$@"

for count in $((long / 10)) "$long"; do
    set -- $(python3 "$script" rows "$count" | clock /dev/null "$program" --home "$work" batch - --json)
    say "$count rows streamed" "$@"
done
