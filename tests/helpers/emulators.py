"""Real terminal emulators as boards under test.

Each gives a port for --port and a command for --dump.
"""

import contextlib
import os
import pathlib
import pty
import subprocess
import time
import tty

NODE_FOLDER = pathlib.Path(__file__).resolve().parent.parent / "emulators"
LIMIT_S = 10.0


def wait_for(condition, what):
    """Return once `condition()` holds; fail after LIMIT_S."""
    deadline = time.monotonic() + LIMIT_S
    while not condition():
        assert time.monotonic() < deadline, f"{what} did not happen within {LIMIT_S} s"
        time.sleep(0.02)


@contextlib.contextmanager
def tmux(folder, rows=24, columns=80):
    """Yield (port, dump command) of a tmux pane.

    Its server, with a socket of its own, ends with it.
    """
    port, socket, settings = folder / "port", folder / "tmux", folder / "tmux.conf"
    settings.write_text("set -g status off\nset -g default-terminal screen\n")
    call = ["tmux", "-S", str(socket), "-f", str(settings)]
    # What is sent goes to tmux itself: it has read all that came before it is asked to tell.
    board = f"stty raw -echo; ln -s $(tty) {port}; exec sleep infinity"
    subprocess.run(
        [*call, "new-session", "-d", "-x", str(columns), "-y", str(rows), board],
        check=True,
        env={**os.environ, "LC_ALL": "C.UTF-8", "TMUX": ""},
    )
    try:
        wait_for(port.exists, "the port of tmux")
        yield str(port), f"tmux -S {socket} capture-pane -p"
    finally:
        subprocess.run([*call, "kill-server"], check=False, capture_output=True)


HARDCOPY = """#!/bin/sh
# Prints the screen of a detached session. The file is whole once it has a line for each row.
rm -f {file}
screen -S {name} -X hardcopy {file}
while [ "$(wc -l 2>/dev/null <{file})" != {rows} ]; do sleep 0.02; done
cat {file}
"""


@contextlib.contextmanager
def gnu_screen(folder, rows=24, columns=80):
    """Yield (port, dump command) of a detached session of GNU screen, which ends with it.

    Such a session has 24 rows and 80 columns.
    """
    assert (rows, columns) == (24, 80)
    port, settings, sessions, dump = (folder / name for name in ("port", "rc", "s", "dump"))
    settings.write_text("startup_message off\nvbell off\n")
    sessions.mkdir(mode=0o700)
    dump.write_text(HARDCOPY.format(file=folder / "hardcopy", name="board", rows=rows))
    dump.chmod(0o700)
    environment = {**os.environ, "SCREENDIR": str(sessions), "LC_ALL": "C.UTF-8", "TERM": "vt100"}
    relay = f"exec socat -,raw,echo=0 PTY,link={port},raw,echo=0"
    call = ["screen", "-c", str(settings), "-D", "-m", "-S", "board", "sh", "-c", relay]
    process = subprocess.Popen(call, env=environment)
    try:
        wait_for(port.exists, "the port of GNU screen")
        yield str(port), f"env SCREENDIR={sessions} {dump}"
    finally:
        quit_call = ["screen", "-S", "board", "-X", "quit"]
        subprocess.run(quit_call, check=False, capture_output=True, env=environment)
        process.wait(LIMIT_S)


@contextlib.contextmanager
def headless_terminal(folder, rows=24, columns=80):
    """Yield (port, dump command) of the emulator from npm, in a process of its own."""
    port, socket = folder / "port", folder / "socket"
    master, slave = pty.openpty()
    tty.setraw(slave)
    port.symlink_to(os.ttyname(slave))
    process = subprocess.Popen(
        ["node", "headless.js", str(socket), str(rows), str(columns)],
        cwd=NODE_FOLDER,
        stdin=master,
        stdout=master,
    )
    os.close(master)
    try:
        wait_for(lambda: socket.exists() or process.poll() is not None, "the start of the emulator")
        assert process.poll() is None, (
            "the emulator ended at once; is tests/emulators/node_modules installed?"
        )
        yield str(port), f"socat -u UNIX-CONNECT:{socket} STDOUT"
    finally:
        os.close(slave)
        process.terminate()
        process.wait(LIMIT_S)
