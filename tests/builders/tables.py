"""Prints figures as rows of tables, each share with its exact 95 % interval."""

import statistics

from helpers.intervals import clopper_pearson


def heading(title, *columns):
    """Print the head of a table."""
    print(f"\n{title}\n\n| {' | '.join(columns)} |\n|{'---|' * len(columns)}", flush=True)


def row(*cells):
    """Print one row."""
    print(f"| {' | '.join(map(str, cells))} |", flush=True)


def share(count, of):
    """Return a share in words with the interval of Clopper and Pearson."""
    lower, upper = clopper_pearson(count, of)
    return f"{count} of {of}, {count / of:.1%} ({lower:.1%} to {upper:.1%})"


def ninetieth(numbers):
    """Return the 90th percentile."""
    ordered = sorted(numbers)
    return ordered[min(len(ordered) * 9 // 10, len(ordered) - 1)]


def spread(numbers):
    """Return mean, 90th percentile and most in words."""
    return f"{statistics.mean(numbers):.1f}, {ninetieth(numbers)}, {max(numbers)}"


def milliseconds(times_s):
    """Return median and 90th percentile of times in words."""
    return f"{1000 * statistics.median(times_s):.0f}, {1000 * ninetieth(times_s):.0f} ms"


def names(odd):
    """Print the names of what did not go well, to be read one by one."""
    print(f"\nNot so: {', '.join(odd) or 'none'}", flush=True)
