"""Attacks on the program as a whole, with figures; `python -m tests.attack --help` tells how.

`test_short.py` is the short form, which the suite runs.
"""
