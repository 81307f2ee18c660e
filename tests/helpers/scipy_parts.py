"""Parts of scipy, for tests that compare with them; imported where one is used.

Each worker collects every test, and importing them takes three quarters of a second.
"""

import importlib


def stats():
    """Return the module scipy.stats."""
    return importlib.import_module("scipy.stats")


def optimize():
    """Return the module scipy.optimize."""
    return importlib.import_module("scipy.optimize")
