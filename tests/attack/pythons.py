"""The versions of Python on this machine that can run the program."""

import functools
import shutil
import subprocess
import sys
import sysconfig

VERSIONS = ("3.11", "3.12", "3.13", "3.14")
"""Those that the program is for, and that there are by now."""
NEEDED = "import sys, yaml, serial, pyte, prompt_toolkit, jinja2; print(sys.version_info[:2])"


@functools.cache
def others():
    """Return version -> path of each on the search path but the one that runs this.

    What the program needs is plain Python, and taken from where this one has it.
    """
    found = {}
    for version in VERSIONS:
        path = shutil.which(f"python{version}")
        if path and _runs(path) and version != f"3.{sys.version_info[1]}":
            found[version] = path
    return found


def packages():
    """Return the folder of the packages that the program needs."""
    return sysconfig.get_path("purelib")


def _runs(path):
    done = subprocess.run(
        [path, "-c", NEEDED],
        env={"PYTHONPATH": packages()},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.returncode == 0
