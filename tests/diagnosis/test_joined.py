"""One cause, by what is said of screens and of keys."""

from termprobe.diagnosis.accounts import Account
from termprobe.diagnosis.causes import Cause
from termprobe.diagnosis.eye_fits import Fit
from termprobe.diagnosis.joined import joined

CAUSE = Cause("baud/ratio/2", "the clock is wrong", "baud", 1.0)
GOOD, BAD = Fit(-1.0, "good", True), Fit(-9.0, "bad", False)


def test_accounts_of_one_name_are_put_together_the_better_fit_of_each_step():
    screens = Account(CAUSE, {"look": GOOD, "typed": BAD})
    keys = Account(CAUSE._replace(weight=5.0), {"press/a": GOOD, "typed": GOOD})
    healthy = Account(CAUSE, {"look": BAD, "press/a": BAD, "typed": BAD})
    (one,) = joined([screens], [keys], healthy)
    assert one.cause is CAUSE and one.fits == {"look": GOOD, "press/a": GOOD, "typed": GOOD}


def test_others_stand_alone():
    other = Account(CAUSE._replace(name="other"), {"look": GOOD})
    assert joined([other], [Account(CAUSE, {})], other) == [other, Account(CAUSE, {})]
