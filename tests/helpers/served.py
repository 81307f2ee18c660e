"""A simulated board served in a process of its own, as other programs meet it."""

import subprocess
import sys

TERMPROBE = (sys.executable, "-m", "termprobe.cli.main")


class ServedBoard:
    """`termprobe sim --pty` in a process of its own.

    Keys of the board go by its standard input, its screen comes by a file.
    """

    def __init__(self, folder, *faults):
        self.port, self._screen = folder / "board", folder / "screen"
        words = [word for fault in faults for word in ("--fault", fault)]
        self._process = subprocess.Popen(
            [
                *TERMPROBE,
                "sim",
                "--profile",
                "singlebyte-24x80",
                "--pty",
                self.port,
                "--screen",
                self._screen,
                *words,
            ],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        assert "answers on" in self._process.stdout.readline()

    def __enter__(self):
        return self

    def __exit__(self, *error):
        self.unplug()

    def unplug(self):
        if self._process.poll() is None:
            self._process.terminate()
            self._process.communicate(timeout=10)

    def type(self, text):
        """Write one line for the hands on the board, as `termprobe sim` takes it."""
        self._process.stdin.write(text + "\n")
        self._process.stdin.flush()

    def rows(self):
        return self._screen.read_text().split("\n")
