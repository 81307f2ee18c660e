"""The keys of a real terminal against its profile.

That is xterm on a display of its own; keys are pressed through the display's test extension.
"""

import json
import os
import pty
import re
import select
import subprocess
import threading
import tty

import pytest

from helpers.paths import ROOT
from helpers.served import TERMPROBE
from helpers.xterm import display
from termprobe.plan.presses import coded_presses
from termprobe.profile.load import load

PROFILE = load("ecma48-24x80")
LIMIT_S = 10.0
QUIET_S = 0.03
KEYSYMS = {
    "escape": "Escape",
    "line-feed": "Linefeed",
    "delete": "Delete",
    "back-space": "BackSpace",
    "tab": "Tab",
    "return": "Return",
    "space": "space",
    "left": "Left",
    "right": "Right",
    "up": "Up",
    "down": "Down",
    "home": "Home",
}
"""X11 keysyms (X11/keysymdef.h) of the keys that no character names."""


class Window:
    """A running xterm: `port` is the device on which its keys arrive."""

    def __init__(self, port, descriptor, display, window):
        self.port, self._descriptor = port, descriptor
        self._environment, self._window = {**os.environ, "DISPLAY": display}, window

    def tool(self, *words):
        subprocess.run(["xdotool", *words], env=self._environment, check=True, timeout=LIMIT_S)

    def press(self, press):
        """Press and release the key of a Press, with its modifiers."""
        modifiers = [{"control": "ctrl"}.get(name, name) for name in press.modifiers]
        self.tool("key", "--delay", "0", "+".join([*modifiers, keysym(press)]))

    def read(self, limit_s=1.0):
        """Return what arrives until QUIET_S without a byte; wait `limit_s` for the first."""
        came, wait_s = b"", limit_s
        while select.select([self._descriptor], [], [], wait_s)[0]:
            came, wait_s = came + os.read(self._descriptor, 100), QUIET_S
        return came


def keysym(press):
    """Return the keysym that names the key: that of its unshifted character, or of its name."""
    if press.key in KEYSYMS:
        return KEYSYMS[press.key]
    if re.fullmatch("f[1-9]", press.key):
        return press.key.upper()
    plain = next(
        one.code for one in coded_presses(PROFILE) if one.key == press.key and not one.modifiers
    )
    return f"0x{plain[0]:02x}"


@pytest.fixture(name="window")
def _window():
    master, slave = pty.openpty()
    tty.setraw(slave)
    with display() as name:
        window = subprocess.Popen(
            ["xterm", "-geometry", "80x24", "+u8", f"-S{os.ttyname(slave)}/{master}"],
            pass_fds=[master],
            env={**os.environ, "DISPLAY": name, "LC_ALL": "C"},
            stderr=subprocess.DEVNULL,
        )
        try:
            announced = b""
            while not announced.endswith(b"\n"):  # the number of its window comes first
                assert select.select([slave], [], [], LIMIT_S)[0], "xterm must announce its window"
                announced += os.read(slave, 1)
            made = Window(os.ttyname(slave), slave, name, str(int(announced, 16)))
            made.tool("windowfocus", "--sync", str(int(announced, 16)))
            yield made
        finally:
            window.terminate()
            window.wait(LIMIT_S)
            os.close(master)
            os.close(slave)


DIFFERENCES = {
    "press/delete": (
        b"\x1b[3~",
        "xterm's Delete is the editing key (xterm control sequences, PC-style function keys), "
        "not the character DEL",
    ),
}
"""What xterm sends otherwise than the profile says, each with its reason."""


def test_every_key_sends_what_the_profile_says_but_for_the_known_differences(window):
    sent = {}
    for press in coded_presses(PROFILE):
        window.press(press)
        sent[press.id] = window.read()
    assert len(sent) > 100
    differing = {
        press.id: sent[press.id] for press in coded_presses(PROFILE) if sent[press.id] != press.code
    }
    assert differing == {name: code for name, (code, _) in DIFFERENCES.items()}


def test_the_walk_finds_the_keyboard_of_xterm_good(window, tmp_path):
    command = [*TERMPROBE, "keys", "--profile", PROFILE.id, "--quick"]
    listed = subprocess.run(
        [*command, "--list", "--json"],
        capture_output=True,
        check=True,
        timeout=LIMIT_S * 2,
        cwd=ROOT,
    )
    asked = {(one["key"], tuple(one["modifiers"])) for one in json.loads(listed.stdout)}
    presses = [press for press in coded_presses(PROFILE) if (press.key, press.modifiers) in asked]
    assert len(presses) == len(asked) > 5
    words = ("--port", window.port, "--board", "x", "--wait", "5", "--json", "--out", tmp_path)
    walk = subprocess.Popen(
        [*command, *words],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )
    limit = threading.Timer(LIMIT_S * 3, walk.kill)
    limit.start()
    try:
        for press in presses:
            next(line for line in walk.stderr if line.startswith("Press "))  # it is asked for
            window.press(press)
        output, _ = walk.communicate(timeout=LIMIT_S * 3)
    finally:
        limit.cancel()
        walk.kill()
        walk.wait(LIMIT_S)
    document = json.loads(output)
    steps = {step["id"]: step["verdict"] for step in document["steps"]}
    assert (walk.returncode, document["suspects"], steps) == (
        0,
        [],
        {press.id: "pass" for press in presses},
    )
