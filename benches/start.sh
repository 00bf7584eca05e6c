#!/usr/bin/env bash
# Whole processes: starting for one sum beside bc, ten thousand designs through one process, memory held.
# Needs bash and python3; what else is missing is said to be absent. Build first: cargo build --release
#
#   benches/start.sh [PROGRAM] [RUNS] [DESIGNS]

set -u
cd "$(dirname "$0")/.." || exit 2

program=${1:-${CARGO_TARGET_DIR:-target}/release/benchrule}
runs=${2:-200}
designs=${3:-10000}

if ! [ -x "$program" ]; then
    echo "$program is not there; cargo build --release makes it" >&2
    exit 2
fi
if ! command -v python3 > /dev/null; then
    echo "python3 is absent, and nothing is measured without it" >&2
    exit 2
fi

exec python3 - "$program" "$runs" "$designs" << 'PYTHON'
import os, shutil, statistics, subprocess, sys, tempfile, threading, time

program, runs, designs = os.path.abspath(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
home = tempfile.mkdtemp()
env = {"PATH": os.environ.get("PATH", ""), "BENCHRULE_HOME": home, "LC_ALL": "C.UTF-8"}
silent = subprocess.DEVNULL


def milliseconds(words, given=None):
    """How long one run takes, from before it is started to after it is gone."""
    begin = time.perf_counter()
    done = subprocess.run(words, env=env, input=given, stdout=silent, stderr=silent)
    taken = (time.perf_counter() - begin) * 1000
    if done.returncode != 0:
        sys.exit(f"{words} failed with {done.returncode}")
    return taken


def series(words, file, out):
    """Seconds of a run that reads a file, and bytes that it wrote."""
    with open(file, "rb") as given, open(out, "wb") as written:
        begin = time.perf_counter()
        done = subprocess.run(words, env=env, stdin=given, stdout=written, stderr=silent)
        taken = time.perf_counter() - begin
    if done.returncode != 0:
        sys.exit(f"{words} failed with {done.returncode}")
    return taken, os.path.getsize(out)


def peak(words, file):
    """MiB that a run held at most, asked once it has answered everything and still waits for more."""
    if not os.path.exists("/proc/self/status"):
        return None
    child = subprocess.Popen(words, env=env, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=silent)

    def feed():
        with open(file, "rb") as given:
            shutil.copyfileobj(given, child.stdin)
        child.stdin.write(b'print("all is said")\n')
        child.stdin.flush()

    feeder = threading.Thread(target=feed)
    feeder.start()
    end = b""
    while b"all is said" not in end:
        more = os.read(child.stdout.fileno(), 1 << 16)
        if not more:
            sys.exit(f"{words} ended before its input")
        end = (end + more)[-100:]
    with open(f"/proc/{child.pid}/status") as status:
        most = next(int(line.split()[1]) for line in status if line.startswith("VmHWM"))
    feeder.join()
    child.communicate()
    return most / 1024


def row(what, *columns):
    print(f"{what:<44}" + "".join(f"{column:>12}" for column in columns))


# Turn and turn about, so that whatever else the machine does falls on all alike.
ours = [program, "-e", "11 + 2*5/8"]
rivals = {"benchrule -e '11 + 2*5/8'": (ours, None), "benchrule --version": ([program, "--version"], None)}
if shutil.which("bc"):
    rivals["bc"] = (["bc"], b"11 + 2*5/8\n")
taken = {name: [] for name in rivals}
for turn in range(runs + 10):
    for name, (words, given) in rivals.items():
        one = milliseconds(words, given)
        # The first runs warm the caches.
        if turn >= 10:
            taken[name].append(one)

row(f"starting, {runs} runs, ms", "median", "best", "9 in 10")
for name, times in taken.items():
    times.sort()
    row("  " + name, *(f"{one:.2f}" for one in (statistics.median(times), times[0], times[len(times) * 9 // 10])))
if "bc" in taken:
    ratio = statistics.median(taken["benchrule -e '11 + 2*5/8'"]) / statistics.median(taken["bc"])
    row("  as many times bc", f"{ratio:.2f}")
else:
    row("  bc", "absent")

# Designs that differ, so that nothing is remembered from the one before.
fields, sheets, quiet = (os.path.join(home, name) for name in ("fields", "sheets", "quiet"))
with open(fields, "w") as one, open(sheets, "w") as both:
    for count in range(designs):
        art = f"art {8 + count % 89} {count % 15 + 1}/16 x {10 + count % 71} x 3/4\n"
        one.write(art)
        both.write(art + "sheet\n")
with open(quiet, "w") as none:
    none.write("1 + 1\n")

print()
out = os.path.join(home, "out")
base = peak([program], quiet)
row(f"{designs} designs through one process", "seconds", "µs each", "MiB out", "MiB held")
row("  one sum, for comparison", "", "", "", f"{base:.1f}" if base else "absent")
for name, words, file in (
    ("art and what it changes, text", [program], fields),
    ("art and sheet, text", [program], sheets),
    ("art and what it changes, --json", [program, "--json"], fields),
    ("art and sheet, --json", [program, "--json"], sheets),
):
    seconds, size = min(series(words, file, out) for _ in range(3))
    most = peak(words, file)
    held = f"{most:.1f}" if most else "absent"
    row("  " + name, f"{seconds:.2f}", f"{seconds / designs * 1e6:.0f}", f"{size / (1 << 20):.1f}", held)
shutil.rmtree(home)
PYTHON
