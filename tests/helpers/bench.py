"""A made-up bench for tests of runs.

A link that records, a plan of a few steps, and observers that say what a test wants.
"""

from termprobe.journal.records import AS_EXPECTED, EYES, Answer, BoardUnderTest, Header
from termprobe.link.base import LineFormat, Received
from termprobe.plan.model import Group, Look, Plan, Stage
from termprobe.terminal.screen import Screen

ROWS, COLUMNS = 3, 8
HEADER = Header(BoardUnderTest("0042"))


class FakeLink:
    """Keeps what is written.

    `react(data) -> bytes` is what the board sends back; `trouble` is raised at the next call.
    """

    def __init__(self, clock, react=lambda data: b"", name="fake:", note=""):
        self.name, self.format, self.note = name, LineFormat(9600, 7, "even", 1), note
        self.clock, self.react = clock, react
        self.written, self.waiting, self.trouble = [], b"", None
        self.times = []

    def write(self, data):
        self._fail()
        self.written.append(bytes(data))
        self.times.append(self.clock.now_s())
        self.waiting += self.react(bytes(data))

    def read(self, wait_s):
        self._fail()
        if not self.waiting:
            self.clock.sleep_until(self.clock.now_s() + wait_s)
            return ()
        data, self.waiting = self.waiting, b""
        return (Received(self.clock.now_s(), data),)

    def drain(self, limit_s):
        self._fail()
        return True

    def lines(self):
        return None

    def set_line(self, line, on):
        pass

    def set_format(self, format):
        self._fail()
        self.format = format

    def close(self):
        pass

    def _fail(self):
        if self.trouble:
            raise self.trouble


class Says:
    """An observer that says prepared things, one a question.

    A callable among them is called with the step.
    """

    name = "somebody"

    def __init__(self, *answers, strength=EYES, kinds=("look", "ask", "measure", "switch")):
        self.answers, self.strength, self.kinds = list(answers), strength, kinds
        self.asked = []

    def can_answer(self, step):
        return step.kind in self.kinds

    def answer(self, step):
        self.asked.append(step.id)
        answer = self.answers.pop(0) if self.answers else Answer(AS_EXPECTED)
        return answer(step) if callable(answer) else answer


def screen_of(*rows, cursor=(0, 0), bells=0):
    blank = (" " * COLUMNS,) * (ROWS - len(rows))
    return Screen((*(row.ljust(COLUMNS) for row in rows), *blank), cursor, bells=bells)


def look(step_id, text="HELLO", **fields):
    """Return a look at `text` in the upper left corner; `fields` are other ones than usual."""
    usual = {
        "stage": "looks",
        "title": f"Look at {step_id}",
        "question": "What is there?",
        "groups": (Group(b"\x1a", "clear", 0.02), Group(text.encode(), f'text "{text}"')),
        "expected": screen_of(text, cursor=(0, len(text))),
        "hash": f"hash of {step_id}",
    }
    return Look(id=step_id, **usual | fields)


def plan(*steps):
    names = dict.fromkeys(step.stage for step in steps)
    stages = tuple(Stage(name, name.title()) for name in names)
    return Plan("made-up", "made-up", "Made up", ROWS, COLUMNS, stages, steps, "f" * 64)
