"""What a plan knows of its steps as earlier texts of profile and script made them."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class EarlierForms:
    """What is known of the forms that steps had under earlier texts."""

    same: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Step id -> hashes that the step had earlier, where it is still the same."""
    gone: frozenset[str] = frozenset()
    """Ids of the steps that are no more."""

    def counts(self, step_id: str, now: str, then: str) -> bool:
        """Return whether an answer to a step of hash `then` is one to the step of hash `now`.

        Of a step without a hash it is not known, and it is taken for the same.
        """
        is_known = bool(now and then)
        return not is_known or then == now or then in self.same.get(step_id, ())


NONE_EARLIER = EarlierForms()
