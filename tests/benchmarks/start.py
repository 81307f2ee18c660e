"""How long the command takes to start, as ratios to a bare interpreter.

Run: .venv/bin/python tests/benchmarks/start.py
"""

import statistics
import subprocess
import sys
import time

ROUNDS = 15


def seconds(*words):
    """Return the median time of a command, which must succeed."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        subprocess.run(words, check=True, capture_output=True)
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def main():
    bare = seconds(sys.executable, "-c", "pass")
    print(f"python -c pass: {bare * 1000:.1f} ms")
    for words in (["--version"], ["--help"], ["profile", "list"], ["script", "list"]):
        taken = seconds(sys.executable, "-m", "termprobe.cli.main", *words)
        ratio = f"{taken / bare:.1f} times a bare start"
        print(f"termprobe {' '.join(words):<14} {taken * 1000:6.1f} ms, {ratio}")


if __name__ == "__main__":
    main()
