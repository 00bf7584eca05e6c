#!/usr/bin/env bash
# The design book at full size: how long its lines take. `.ci/long` has the fault tests with larger counts.
set -euo pipefail
cd "$(dirname "$0")/.."

cargo bench --bench book
