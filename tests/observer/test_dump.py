"""A dump command: taken again until it matches or stays as it is.

Every way in which it can go wrong is the command's, not the board's.
"""

import contextlib
import os
import shlex
import sys
import time

import pytest

from helpers.bench import look, screen_of
from termprobe.clock import CrankedClock, SystemClock
from termprobe.errors import ObserverError, UsageError
from termprobe.journal.records import AS_EXPECTED, DIFFERS
from termprobe.observer.dump import DumpObserver
from termprobe.observer.dumped import Dumped

LOOK = look("a")


def python(code, *arguments):
    return shlex.join([sys.executable, "-c", code, *map(str, arguments)])


def prints(text):
    data = text if isinstance(text, bytes) else text.encode()
    return python(f"import sys; sys.stdout.buffer.write({data!r})")


def answer(command, **options):
    return DumpObserver(command, CrankedClock(), **options).answer(LOOK)


@pytest.mark.parametrize(
    "text",
    ["HELLO\n\n\n", "HELLO   \n        \n\n", "HELLO\r\n\r\n\r\n", "HELLO\n\n", "HELLO\n\n\n\n\n"],
)
def test_rows_are_compared_whatever_the_line_ends(text):
    found = answer(prints(text))
    assert found.word == AS_EXPECTED and found.seen == ("HELLO", "", "") and found.cursor is None


def test_a_look_without_a_screen_is_not_answered():
    observer, unknown = DumpObserver("false", CrankedClock()), look("a", expected=None)
    assert observer.can_answer(LOOK) and not observer.can_answer(unknown)
    assert observer.answer(unknown) is None


def test_a_difference_is_kept_as_seen():
    found = answer(prints("HELP\n\nX\n"))
    assert found.word == DIFFERS and found.seen == ("HELP", "", "X")


def test_bytes_that_are_no_text_are_replaced():
    assert answer(prints(b"HE\xffLO\n\n\n")).seen[0] == "HE\ufffdLO"


COUNTING = """
import sys, pathlib
path, texts = pathlib.Path(sys.argv[1]), sys.argv[2:]
path.touch()
count = len(path.read_text())
path.write_text('x' * (count + 1))
print(texts[min(count, len(texts) - 1)] + '\\n\\n')
"""


def counted(folder, *texts):
    """Return (answer, number of dumps taken).

    One dump after the other shows `texts` in the first row.
    """
    found = answer(python(COUNTING, folder / "count", *texts))
    return found, len((folder / "count").read_text())


def test_a_dump_is_taken_again_until_it_matches(tmp_path):
    found, count = counted(tmp_path, "H", "HEL", "HELLO", "no more")
    assert (found.word, count) == (AS_EXPECTED, 3)


def test_two_equal_dumps_in_a_row_settle_it(tmp_path):
    found, count = counted(tmp_path, "H", "HELP", "HELP", "HELLO")
    assert (found.word, found.seen[0], count) == (DIFFERS, "HELP", 3)


def test_a_dump_that_never_settles_ends_with_the_time(tmp_path):
    found, count = counted(tmp_path, *(str(number) for number in range(100)))
    assert found.word == DIFFERS
    assert 20 <= count <= 22  # 2 s of the cranked clock, a pause of 0.1 s between dumps


class Board:
    """A screen that each step draws on, and a dump of it that comes late by the cranked clock."""

    def __init__(self, late_s=0.0, has_cursor=False):
        self.clock, self.late_s, self.has_cursor = CrankedClock(), late_s, has_cursor
        self.shown = [(0.0, ("", "", ""), (0, 0))]
        self.observer = DumpObserver("a command", self.clock)
        self.observer.dump = self.dump

    def draw(self, *rows, cursor=(0, 0)):
        self.observer.begin()
        self.clock.sleep_until(self.clock.now_s() + 0.05)
        self.shown.append((self.clock.now_s(), (*rows, "", "", "")[:3], cursor))

    def dump(self, rows, columns):
        at_s = self.clock.now_s() - self.late_s
        _, shown, cursor = [one for one in self.shown if one[0] <= at_s or not one[0]][-1]
        return Dumped(shown, cursor if self.has_cursor else None)

    def asked(self, text, cursor=(0, 0)):
        """Return (word, how long it took) of a look that expects `text` in the first row."""
        before_s = self.clock.now_s()
        expected = screen_of(text, cursor=cursor)
        word = self.observer.answer(look(text, text, expected=expected)).word
        return word, round(self.clock.now_s() - before_s, 1)


def test_a_dump_that_comes_late_is_waited_for():
    board = Board(late_s=0.395)
    words = []
    for text in ("ONE", "TWO", "THREE"):
        board.draw(text)
        words.append(board.asked(text))
    assert words == [(AS_EXPECTED, 0.4)] * 3


def test_a_late_dump_of_a_step_that_was_not_dumped_is_waited_for_as_well():
    board = Board(late_s=0.395)
    board.draw("ONE")
    board.asked("ONE")
    board.draw("A REPLY")
    board.clock.sleep_until(board.clock.now_s() + 1)
    board.draw("TWO")
    assert board.asked("TWO") == (AS_EXPECTED, 0.4)


def test_a_screen_that_stays_that_of_the_step_before_differs_when_the_time_is_over():
    board = Board()
    board.draw("ONE")
    board.asked("ONE")
    board.draw("ONE")
    assert board.asked("TWO") == (DIFFERS, 2.0)


def test_another_wrong_screen_is_settled_by_two_equal_dumps():
    board = Board()
    board.draw("ONE")
    board.asked("ONE")
    board.draw("TWQ")
    assert board.asked("TWO") == (DIFFERS, 0.1)


def test_a_cursor_that_is_told_is_judged():
    board = Board(late_s=0.395, has_cursor=True)
    board.draw("ONE", cursor=(1, 2))
    assert board.asked("ONE", cursor=(1, 2))[0] == AS_EXPECTED
    board.draw("ONE", cursor=(2, 3))
    assert board.asked("ONE", cursor=(2, 3)) == (AS_EXPECTED, 0.4), "it was late, too"
    board.draw("TWO", cursor=(0, 1))
    assert board.asked("TWO", cursor=(0, 3))[0] == DIFFERS


def test_the_program_may_print_the_cursor_behind_a_form_feed():
    right, wrong = (answer(prints(f"HELLO\n\n\n\fcursor: 0,{column}\n")) for column in (5, 6))
    assert (right.word, right.cursor) == (AS_EXPECTED, (0, 5))
    assert (wrong.word, wrong.cursor) == (DIFFERS, (0, 6))


@pytest.mark.parametrize(
    "command, message",
    [
        (
            "/no/such/program",
            "the dump command /no/such/program must be a program that can be run "
            "(No such file or directory); see --dump",
        ),
        ("/etc/passwd", "must be a program that can be run (Permission denied)"),
        (python("import sys; sys.exit(3)"), "must end with exit code 0, not 3"),
        (
            python("import sys; sys.exit('no\\x1b card')"),
            "must end with exit code 0, not 1 (no\\x1b card)",
        ),
        (prints("HELLO\n"), "must print 3 rows, not 1"),
        (prints(""), "must print 3 rows, not 0"),
        (prints("HELLO\n\n\nmore\n"), "must print 3 rows, not 4"),
        (
            prints("HELLO AND MORE\n\n\n"),
            "must print rows of at most 8 characters, not 14 in row 0",
        ),
        (prints("HELLO\n\x1b[1m\n\n"), "must print rows of plain text, not '\\\\x1b[1m' in row 1"),
        (python("import os; os.kill(os.getpid(), 9)"), "must end with exit code 0, not -9"),
    ],
    ids=range(10),
)
def test_what_goes_wrong_is_one_plain_line(command, message):
    with pytest.raises(ObserverError) as caught:
        answer(command)
    said = str(caught.value)
    assert message in said and "\n" not in said and "\x1b" not in said


def test_noise_is_refused():
    with pytest.raises(ObserverError, match="must print"):
        answer(prints(bytes(range(256)) * 8))


def test_a_program_that_hangs_is_ended_with_all_that_it_started(tmp_path):
    code = (
        "import subprocess, sys, os, time\n"
        "child = subprocess.Popen([sys.executable, '-c', 'import time; time.sleep(60)'])\n"
        f"open({str(tmp_path / 'pid')!r}, 'w').write(str(child.pid)); time.sleep(60)"
    )
    with pytest.raises(ObserverError, match="must print one screen and end within 0.7 s"):
        answer(python(code), program_limit_s=0.7)
    child = int((tmp_path / "pid").read_text())
    for _ in range(100):
        if _is_gone(child):
            return
        time.sleep(0.02)
    pytest.fail("the program's child lives on")


def _is_gone(pid):
    try:
        with open(f"/proc/{pid}/stat") as file:
            return file.read().rpartition(")")[2].split()[0] == "Z"
    except OSError:
        return True


def test_a_program_that_prints_without_end_is_ended():
    with pytest.raises(ObserverError, match="must print one screen and end"):
        answer("yes", program_limit_s=20)


def test_a_child_that_keeps_the_output_open_does_not_hold_the_run():
    code = "import subprocess; print('HELLO\\n\\n'); subprocess.Popen(['sleep', '60'])"
    assert answer(python(code), program_limit_s=30).word == AS_EXPECTED


def test_no_shell_reads_the_command(tmp_path):
    mark = tmp_path / "mark"
    answer(python("import sys; print('HELLO\\n\\n')", ";", "touch", mark, f"$(touch {mark})"))
    assert not mark.exists()


@pytest.mark.parametrize("command", ["", "  ", "program 'open quote"])
def test_a_command_that_is_none_is_refused_before_the_run(command):
    with pytest.raises(UsageError, match="--dump must"):
        DumpObserver(command, SystemClock())


def test_no_descriptor_is_left_open():
    before = len(os.listdir("/proc/self/fd"))
    for command in (prints("HELLO\n\n\n"), "/no/such/program", "false"):
        with contextlib.suppress(ObserverError):
            answer(command)
    assert len(os.listdir("/proc/self/fd")) == before
