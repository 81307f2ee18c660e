"""Where things are in the checkout."""

import pathlib

TESTS = pathlib.Path(__file__).resolve().parents[1]
ROOT = TESTS.parent
WORKED = TESTS / "golden" / "worked"
RECORDED = TESTS / "golden" / "recorded"
RUN_FILES = TESTS / "golden" / "run-files"
