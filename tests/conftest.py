"""Settings for every test: no example is held to a time, since machines differ and may be busy.

What the program keeps in the user's cache folder goes into one that lasts as long as the tests, so
that no test depends on what is there already, and what takes long is worked out once for all.

Dates in reports are those of the place where one stands: here that is Greenwich.

A shell lets what it runs in the background ignore an interrupt, and so would every program that a
test begins and interrupts. Hundreds of programs are begun: for them Python keeps compiled code,
whatever the environment says.

Nothing that is collected becomes garbage while tests run: it is not looked through for any.
"""

import gc
import os
import shutil
import signal
import tempfile
import time

import pytest
from hypothesis import settings

from helpers.examples import USUAL
from helpers.garbage import look_only_at_what_comes

settings.register_profile("untimed", deadline=None, max_examples=3 * USUAL // 5)
settings.register_profile("twenty", deadline=None, max_examples=20 * USUAL, database=None)
settings.load_profile("untimed")

IS_WORKER = "PYTEST_XDIST_WORKER" in os.environ
"""Workers have the folder of the process that began them."""


def pytest_configure(config):
    os.environ["TZ"] = "UTC"
    time.tzset()
    if IS_WORKER:
        return
    signal.signal(signal.SIGINT, signal.default_int_handler)
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # its threads would wait, and burn time
    config.cache_folder = tempfile.mkdtemp(prefix="termprobe-tests-cache-")
    usual = os.environ.get("XDG_CACHE_HOME") or os.path.expanduser("~/.cache")
    os.environ.setdefault("PIP_CACHE_DIR", os.path.join(usual, "pip"))
    os.environ["XDG_CACHE_HOME"] = config.cache_folder


@pytest.hookimpl(wrapper=True)
def pytest_collection():
    gc.disable()
    collected = yield
    look_only_at_what_comes()
    gc.enable()
    return collected


def pytest_collection_modifyitems(items):
    """Let files with slow tests come first, so that none begins when all others have ended."""
    slow = {item.path for item in items if item.get_closest_marker("slow")}
    items.sort(key=lambda item: item.path not in slow)


def pytest_unconfigure(config):
    if not IS_WORKER:
        shutil.rmtree(config.cache_folder, ignore_errors=True)
