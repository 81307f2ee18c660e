"""Each limit of the acceptance script against the table of where it comes from."""

import pytest

from helpers.paths import TESTS
from termprobe.plan.compile import compile_plan
from termprobe.plan.model import Measure
from termprobe.plan.quantities import OVER_RANGE
from termprobe.plan.readings import Band
from termprobe.profile.load import load as load_profile
from termprobe.script.load import load

SCRIPT = load("acceptance")
PROFILE = load_profile("singlebyte-24x80")
TABLE = TESTS / "golden" / "transcribed" / "limits.txt"
OL = "OL"


def end(text):
    """Return the number in `text`, or None where the range has no such end."""
    return float(text) if text else None


def span(text):
    """Return the Band that `4.75..5.25` stands for."""
    low, high = text.split("..")
    return Band(end(low), end(high))


def transcribed():
    """Return step -> the cells of its row in the table."""
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    rows = [[cell.strip() for cell in line.split("|")] for line in lines if line[0] != "#"]
    return {step: rest for step, *rest in rows}


def measured(speed_baud=1):
    plan = compile_plan(PROFILE, SCRIPT, speed_baud=speed_baud)
    return {step.id: step for step in plan.steps if isinstance(step, Measure)}


def test_the_table_has_every_reading_and_no_other():
    assert set(transcribed()) == set(measured())


@pytest.mark.parametrize("step_id", transcribed())
def test_a_reading_has_the_limits_of_its_document(step_id):
    unit, passing, usual, possible, document = transcribed()[step_id]
    step = measured()[step_id]
    ranges = tuple(map(span, passing.split()))
    numbers, *over_range = possible.split()
    assert step.unit == unit and step.source.startswith(document)
    assert (step.ranges or (Band(step.low, step.high),)) == ranges
    assert (step.usual, step.possible) == (span(usual), span(numbers))
    assert step.has_over_range == (over_range == [OL])


READINGS = {
    "rail-5v-open": {
        0.39: "fail",
        0.4: "pass",
        0.7: "pass",
        OVER_RANGE: "pass",
        99: "none",
        4.1: "none",
    },
    "supply-5v": {4.6: "fail", 5.0: "pass", 5.3: "fail", OVER_RANGE: "none"},
    "supply-12v": {9.9: "fail", 10.0: "warning", 11.4: "pass", 12.6: "pass", 12.7: "fail"},
    "supply-minus-12v": {-0.6: "fail", -10: "warning", -11.9: "pass", 12.0: "fail"},
    "ripple-5v": {0.02: "pass", 0.2: "fail", -0.02: "none"},
    "vertical-rate": {50: "pass", 55: "fail", 59.9: "pass", 48.9: "fail", 61.1: "fail"},
    "idle-level": {-24.9: "pass", -9: "pass", -4.9: "fail", 0.2: "fail", -25.1: "fail"},
}


@pytest.mark.parametrize("step_id", READINGS)
def test_readings_from_the_bench_are_judged_as_a_builder_would(step_id):
    step = measured()[step_id]
    for value, expected in READINGS[step_id].items():
        assert worth(step, value) == expected, value


def worth(step, value):
    if not step.is_reading(value):
        return "none"
    if not step.allows(value):
        return "fail"
    return "pass" if step.usual.holds(value) else "warning"


@pytest.mark.parametrize("speed_baud", [300, 9600, 19200])
def test_the_clock_passes_within_1_percent_warns_to_2_and_fails_beyond(speed_baud):
    """Bands for a clock of 16 times the speed: half of what a receiver stands is 2 %."""
    step, nominal_hz = measured(speed_baud)["line-clock"], 16 * speed_baud
    for percent, expected in ((0.9, "pass"), (1.1, "warning"), (1.9, "warning"), (2.1, "fail")):
        for sign in (1, -1):
            assert worth(step, nominal_hz * (1 + sign * percent / 100)) == expected


def test_the_speed_is_the_profiles_where_no_other_is_asked_for():
    step = compile_plan(PROFILE, SCRIPT).step("line-clock")
    assert (step.low, step.high) == pytest.approx((150528, 156672))
