"""Attacks on the program as a whole, with figures; `python -m tests.attack --help` tells how.

`test_short.py` is the short form, which the suite runs.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))
