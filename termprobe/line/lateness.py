"""How late an adapter delivers what has come: measured with a loopback plug, a character at a time.

Many with USB gather what comes for 16 ms, as they are set at first (common practice).
"""

import statistics

from termprobe.line.in_use import Checked, LineInUse, gathered, wait

COUNT = 8
BETWEEN_S = 0.037
"""From one character to the next, so that none falls into the same moment of an adapter's clock."""
DELAY = "delay"
"""Word of a step's `told_by`: the step in which this was measured."""


def plug_delay(line: LineInUse) -> Checked:
    """Time single characters on their way back; the worst is the value, in seconds."""
    late_s: list[float] = []
    for _ in range(COUNT):
        line.poll_events()
        begun_s = line.clock.now_s()
        line.write(b"U")
        came = gathered(line, 1)
        if not came:
            return Checked(None, "nothing came back: is the plug in?")
        late_s.append(max(came[0].at_s - begun_s - line.link_format.character_s, 0.0))
        wait(line, BETWEEN_S)
    usual_ms, worst_ms = 1000 * statistics.median(late_s), 1000 * max(late_s)
    said = f"the adapter delivers {usual_ms:.0f} ms late, {worst_ms:.0f} ms at worst"
    return Checked(True, f"{said}; the checks of busy allow for that", value=max(late_s))
