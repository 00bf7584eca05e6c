#!/bin/sh
# The scripts of tests/program/hostile against the clock, with the limits as they usually are: the slowest and the largest, as
# `run` and as a style. Needs a release build and GNU time; `benches/hostile.sh [PROGRAM]`.
set -eu
program=$(realpath "${1:-target/release/benchrule}")
scripts=$(realpath tests/program/hostile)
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
mkdir -p "$place/here" "$place/home/styles"
cd "$place/here"
for file in "$scripts"/*.rhai; do
    name=$(basename "$file" .rhai)
    cp "$file" script.rhai
    { cat "$file"; printf ';\nfn build_for(art, asks) { new_design() }\n'; } > ../home/styles/hostile.rhai
    for how in run style; do
        if [ "$how" = run ]; then set -- run script.rhai; else set -- -e 'art 16 x 20 x 1' -e 'style hostile'; fi
        /usr/bin/time -f "%e %M $how $name" -o ../time "$program" --home ../home --write . "$@" > ../out 2>&1 || true
        tail -n 1 ../time >> ../times
        rm -f flood.txt
    done
done
echo 'slowest, seconds:'
sort -rn ../times | head -n 5
echo 'largest, KiB:'
sort -rn -k 2 ../times | head -n 5
