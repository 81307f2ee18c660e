"""What a step without a screen asks for."""

from helpers.bench_plan import full_plan
from helpers.bench_state import rows_of
from termprobe.session.draw.rows import plain
from termprobe.session.draw.task_rows import task_rows


def test_when_to_switch_off_and_the_source_stand_below_what_is_asked():
    rows = rows_of(task_rows(full_plan().step("supply-5v"), [plain("asked")], 80))
    assert rows == [
        "",
        "asked",
        "",
        "  Switch off at once if: the regulator is too hot to touch",
        "",
        "  Source: board notes, page 3",
    ]
    assert rows_of(task_rows(full_plan().step("lamp"), [], 80)) == [""]
