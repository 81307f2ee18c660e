"""A private tmux server of one console.

It is for tests that hold a session as a person would: keys in, console out.
"""

import shutil
import subprocess
import time
import uuid

LIMIT_S = 20.0
IS_HERE = shutil.which("tmux") is not None


class Tmux:
    """One console of `columns` x `rows` in which `command` (words) runs.

    `with` ends it, and its server.
    """

    def __init__(self, command, columns, rows, folder, environment=()):
        self._socket = f"termprobe-{uuid.uuid4().hex[:12]}"
        settings = folder / "tmux.conf"
        settings.write_text("set -g status off\nset -g default-terminal screen-256color\n")
        self._status = folder / "exit-code"
        self._status.unlink(missing_ok=True)
        words = [f"{name}={value}" for name, value in dict(environment).items()]
        self._tmux(
            "-f",
            str(settings),
            "new-session",
            "-d",
            "-x",
            str(columns),
            "-y",
            str(rows),
            "env",
            "-u",
            "NO_COLOR",
            *words,
            "sh",
            "-c",
            'status=$1; shift; "$@"; echo $? >"$status"; exec sleep 1000',
            "sh",
            str(self._status),
            *map(str, command),
        )

    def _tmux(self, *words):
        return subprocess.run(
            ["tmux", "-L", self._socket, *words], capture_output=True, text=True, check=True
        ).stdout

    def __enter__(self):
        return self

    def __exit__(self, *error):
        subprocess.run(
            ["tmux", "-L", self._socket, "kill-server"], capture_output=True, check=False
        )

    def text(self, *options):
        """Return what the console shows; option -e keeps attributes."""
        return "\n".join(
            row.rstrip() for row in self._tmux("capture-pane", "-p", *options).split("\n")
        )

    def wait(self, *words):
        """Wait until all of `words` are shown; return the console's text."""
        end_s = time.monotonic() + LIMIT_S
        while True:
            shown = self.text()
            if all(word in shown for word in words):
                return shown
            assert time.monotonic() < end_s, f"{words} must be shown, not:\n{shown}"
            time.sleep(0.02)

    def press(self, *keys, then=()):
        """Press keys by tmux's names, wait for the words `then`."""
        if keys[0] in ("y", "n", "Enter"):
            time.sleep(0.27)  # an answer that comes too soon after its screen does not count
        self._tmux("send-keys", *keys)
        return self.wait(*then)

    def exit_code(self):
        """Wait for the command to end; return its exit code."""
        end_s = time.monotonic() + LIMIT_S
        while not self._status.exists() or not self._status.read_text().endswith("\n"):
            assert time.monotonic() < end_s, f"the command must end, but it shows:\n{self.text()}"
            time.sleep(0.02)
        return int(self._status.read_text())
