"""When to kill: how long the lives before have taken to their first answer, and for each other."""

import time

FIRST_S, EACH_S = 0.05, 0.01
"""Before any has been seen."""
WEIGHT = 0.2
"""Of what was seen last; a machine with other work is slower at times."""
MOST_ANSWERS = 4


class Pace:
    """Learns how fast a victim lives, and draws from that when to kill it."""

    def __init__(self):
        self.first_s, self.each_s = FIRST_S, EACH_S
        self._heard_s = []

    def drawn(self, chance):
        """Return (after how many answers to kill, and how long after the last of them in s)."""
        if chance.random() < 0.5:
            return 0, chance.uniform(0, self.first_s)
        return chance.randint(1, MOST_ANSWERS), chance.uniform(0, self.each_s)

    def hear(self):
        """Take note that it is ready, or has acknowledged an answer."""
        self._heard_s.append(time.monotonic())

    def end(self):
        """Learn from the life that has ended."""
        ready_s, *answered_s = self._heard_s
        if answered_s:
            self.first_s = _drawn_to(self.first_s, answered_s[0] - ready_s)
        if len(answered_s) > 1:
            each_s = (answered_s[-1] - answered_s[0]) / (len(answered_s) - 1)
            self.each_s = _drawn_to(self.each_s, each_s)
        self._heard_s.clear()


def _drawn_to(known_s, seen_s):
    return (1 - WEIGHT) * known_s + WEIGHT * seen_s
