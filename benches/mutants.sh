#!/usr/bin/env bash
# Every mistake that may be put into the rules and tables, one at a time: how many of them rows of truth notice.
# `BLESS=1` rewrites the list of those that none does.
set -euo pipefail
cd "$(dirname "$0")/.."
MUTANTS=1 cargo test --profile long --test truth -- mutants --nocapture
