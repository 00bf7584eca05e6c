#!/usr/bin/env bash
# The design book at full size: what lines take, and the fault tests with larger counts.
#
#   benches/book.sh [KILLS]     kills a program after every count of kept revisions up to KILLS, 200 unless given
set -euo pipefail
cd "$(dirname "$0")/.."

cargo bench --bench book
KILLS="${1:-200}" cargo test --release --test book
