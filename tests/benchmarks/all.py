"""Prints the figures of every benchmark beside this file.

Run: .venv/bin/python tests/benchmarks/all.py
"""

import pathlib
import subprocess
import sys


def main():
    here = pathlib.Path(__file__).resolve()
    for path in sorted(here.parent.glob("*.py")):
        if path != here:
            print(f"\n== {path.stem}", flush=True)
            subprocess.run([sys.executable, str(path)], check=True, cwd=here.parent.parent.parent)


if __name__ == "__main__":
    main()
