"""The published facts, against what was copied by hand from the documents that they name."""

import collections

from helpers.transcribed import rows
from termprobe.link.rate_facts import (
    FASTER_BAUD,
    NOMINAL_BAUD,
    PUBLISHED,
    RECOMMENDED_PERCENT,
    USUAL_CLOCKS_HZ,
)


def transcribed():
    """Return clock -> rate -> divisor."""
    found = collections.defaultdict(dict)
    for clock_hz, baud, divisor, _ in rows("divisors.txt"):
        found[float(clock_hz)][float(baud)] = int(divisor)
    return found


def test_the_divisors_are_those_of_the_published_tables_and_no_others():
    assert {table.clock_hz: table.divisors for table in PUBLISHED} == transcribed()


def test_each_table_says_where_it_comes_from():
    assert all(table.source.startswith("data sheet of the ") for table in PUBLISHED)


def test_the_nominal_rates_are_those_that_all_tables_have():
    tables = [set(table) for table in transcribed().values()]
    assert set(NOMINAL_BAUD) == set.intersection(*tables)
    assert set(NOMINAL_BAUD + FASTER_BAUD) == set.union(*tables)
    assert {table.clock_hz for table in PUBLISHED} <= set(USUAL_CLOCKS_HZ)


def test_the_recommended_errors_are_those_of_the_published_table():
    table = rows("receiver-tolerance.txt")
    assert {int(bits): float(most) for bits, *_, most in table} == RECOMMENDED_PERCENT
