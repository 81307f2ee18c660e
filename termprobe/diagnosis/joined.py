"""Accounts of one cause by what is said of screens, and of keys, put together."""

from collections.abc import Iterable

from termprobe.diagnosis.accounts import Account, Fits


def joined(
    of_display: Iterable[Account], of_keys: Iterable[Account], healthy: Account
) -> list[Account]:
    """Return all accounts, those of one name joined: what is said of screens, and of keys."""
    joined = {one.cause.name: one for one in of_display}
    for one in of_keys:
        known = joined.get(one.cause.name)
        if known is not None:
            one = Account(known.cause, _better_of(one.fits, known.fits))
        joined[one.cause.name] = one
    return list(joined.values())


def _better_of(first: Fits, second: Fits) -> Fits:
    """Return the Fits of both; of a word typed back, which both change, the better one."""
    both = {**first, **second}
    for step in first.keys() & second.keys():
        both[step] = max(first[step], second[step], key=lambda fit: fit.log_likelihood)
    return both
