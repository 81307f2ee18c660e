"""Rates of a clock as a page, in the width of the console, and as plain data."""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from termprobe.folding import folded
from termprobe.link.base import LineFormat
from termprobe.link.budget import (
    Deviation,
    bits_after_start,
    budget_of,
    middle_budget,
    used_share,
    voting_budget,
)
from termprobe.link.frame_text import frame_text
from termprobe.link.rate_facts import PUBLISHED, RECOMMENDED_PERCENT, VOTING
from termprobe.link.rates import LineRate, nearer_rate
from termprobe.report.baud_words import (
    EXACT_BELOW_PERCENT,
    clocks_verdict,
    deviation,
    hertz,
    left,
    rate_verdict,
    rates_verdict,
)

PAGE_COLUMNS = 80
GAP = 2
Document = dict[str, object]


class _Column(NamedTuple):
    """A column of a table; the first cell is its head."""

    cells: tuple[str, ...]
    rank: int
    """The columns with the highest rank are left out first where the console is narrow."""

    @property
    def width(self) -> int:
        """How wide it is drawn."""
        return max(map(len, self.cells))

    def drawn(self) -> list[str]:
        """Return the cells, all as wide as the widest."""
        return [cell.rjust(self.width) for cell in self.cells]


def baud_page(of_clocks: Sequence[Sequence[LineRate]], format: LineFormat, columns: int) -> str:
    """Return the page on the rates of each clock, in lines of at most `columns` characters."""
    wide = min(columns, PAGE_COLUMNS)
    rates = [rate for of_clock in of_clocks for rate in of_clock]
    if _is_one_each(of_clocks):
        head = f"Divisor {rates[0].divisor} of each clock / 16:"
        table = _drawn([_clocks(rates), *_described(rates, format)], wide)
    elif len(of_clocks) > 1:
        head, table = "How far off each rate is, in per cent:", _compared(of_clocks, wide)
    else:
        head, table = _head(rates), _drawn(_described(rates, format), wide)
    blocks = [
        folded("", head, wide),
        table,
        *(folded("", text, wide) for text in (*_nearer(rates), _budget(format))),
        folded("", verdict(of_clocks, format), wide),
    ]
    return "\n\n".join("\n".join(block) for block in blocks)


def verdict(of_clocks: Sequence[Sequence[LineRate]], format: LineFormat) -> str:
    """Return in one sentence what holds: of a rate, of a clock's rates, or of several clocks."""
    match of_clocks:
        case [[rate]]:
            return rate_verdict(rate, format)
        case [rates]:
            return rates_verdict(rates, format)
        case _:
            return clocks_verdict(of_clocks, format)


def _is_one_each(of_clocks: Sequence[Sequence[LineRate]]) -> bool:
    """Tell whether there is one rate of each of several clocks: that of one divisor."""
    return len(of_clocks) > 1 and all(len(rates) == 1 for rates in of_clocks)


def _head(rates: Sequence[LineRate]) -> str:
    clock_hz = rates[0].clock_hz
    head = f"{hertz(clock_hz)} / (16 x divisor)"
    for table in PUBLISHED:
        if table.clock_hz == clock_hz and all(_is_in(table.divisors, rate) for rate in rates):
            return f"{head}, divisors as published ({table.source}):"
    return f"{head}:"


def _is_in(divisors: dict[float, int], rate: LineRate) -> bool:
    return divisors.get(rate.baud) == rate.divisor


def _column(head: str, rank: int, cells: Iterable[str]) -> _Column:
    return _Column((head, *cells), rank)


def _clocks(rates: Sequence[LineRate]) -> _Column:
    return _column("clock", 0, (hertz(rate.clock_hz) for rate in rates))


def _described(rates: Sequence[LineRate], format: LineFormat) -> list[_Column]:
    budget = budget_of(format)
    return [
        _column("baud", 0, (f"{rate.baud:g}" for rate in rates)),
        _column("divisor", 2, (str(rate.divisor) for rate in rates)),
        _column("actual", 3, (f"{rate.actual_baud:.3f}" for rate in rates)),
        _errors("error", rates),
        _column("used", 4, (_share(budget, rate) for rate in rates)),
        _column("left for the other end", 5, (_range(left(rate, format)) for rate in rates)),
    ]


def _errors(head: str, rates: Sequence[LineRate]) -> _Column:
    return _column(head, 1, (_percent(rate.error_percent) for rate in rates))


def _compared(of_clocks: Sequence[Sequence[LineRate]], wide: int) -> list[str]:
    """Return a table with a column for each clock, below one another where they do not fit."""
    names = _column("baud", 0, (f"{rate.baud:g}" for rate in of_clocks[0]))
    clocks = [_errors(hertz(rates[0].clock_hz), rates) for rates in of_clocks]
    lines: list[str] = []
    while clocks:
        count = max(1, _fitting([names, *clocks], wide) - 1)
        lines += [""] * bool(lines) + _rows([names, *clocks[:count]])
        clocks = clocks[count:]
    return lines


def _fitting(table: Sequence[_Column], wide: int) -> int:
    """Return how many columns from the first on stand side by side."""
    used = -GAP
    for number, column in enumerate(table):
        used += GAP + column.width
        if used > wide:
            return number
    return len(table)


def _drawn(table: list[_Column], wide: int) -> list[str]:
    """Return the table, without as many of its columns as do not fit."""
    while len(table) > 1 and _fitting(table, wide) < len(table):
        table.remove(max(table, key=lambda column: column.rank))
    return _rows(table)


def _rows(table: Sequence[_Column]) -> list[str]:
    rows = zip(*(column.drawn() for column in table), strict=True)
    return [(" " * GAP).join(row) for row in rows]


def _percent(percent: float) -> str:
    if abs(percent) < EXACT_BELOW_PERCENT:
        return "0"
    return f"{percent:+.3f} %"


def _share(budget: Deviation, rate: LineRate) -> str:
    return f"{used_share(budget, rate.error_percent):.0%}"


def _range(span: Deviation) -> str:
    return f"{span.slow_percent:+.2f} to {span.fast_percent:+.2f} %"


def _nearer(rates: Sequence[LineRate]) -> Iterator[str]:
    """Yield what to say of rates of which another divisor would be less wrong."""
    for rate in rates:
        nearer = nearer_rate(rate)
        if nearer and len({one.clock_hz for one in rates}) == 1:
            runs = deviation(nearer.error_percent)
            yield f"Divisor {nearer.divisor} would be nearer to {rate.baud:g}: {runs}."


def _budget(format: LineFormat) -> str:
    bits = bits_after_start(format)
    return (
        f"{frame_text(format)}: a receiver with 16 samples a bit bears a sender that is off by "
        f"{_range(voting_budget(bits))} where it takes the majority of three samples "
        f"({VOTING.source}), +-{middle_budget(bits + 2).fast_percent:.2f} % where it samples once; "
        f"each end should keep within +-{RECOMMENDED_PERCENT[bits]:g} %."
    )


def baud_document(of_clocks: Sequence[Sequence[LineRate]], format: LineFormat) -> Document:
    """Return the page as plain data: of one clock, or of several with its clock in each rate."""
    clock_hz: float | None = None
    if len(of_clocks) == 1:
        clock_hz = _number(of_clocks[0][0].clock_hz)
    rates = [_rate_document(rate) for rates in of_clocks for rate in rates]
    if clock_hz is not None:
        for document in rates:
            del document["clock_hz"]
    return {
        "clock_hz": clock_hz,
        "rates": rates,
        "verdict": verdict(of_clocks, format),
        "format": frame_text(format),
        "budget_percent": [round(percent, 4) for percent in budget_of(format)],
    }


def _rate_document(rate: LineRate) -> Document:
    return {
        "clock_hz": _number(rate.clock_hz),
        "baud": _number(rate.baud),
        "divisor": rate.divisor,
        "actual_baud": _number(round(rate.actual_baud, 4)),
        "error_percent": _number(round(rate.error_percent, 4)),
    }


def _number(value: float) -> float:
    """Return a whole number as one."""
    if value == int(value):
        return int(value)
    return value
