"""A word that is typed back, as the screen shows it."""

import json

from helpers.scripts import plan_of
from helpers.special import special
from termprobe.plan.show import show_step
from termprobe.plan.typed_word import in_codes, variant_of, word_shown

LINE = json.dumps(
    {"id": "word", "kind": "typed-back", "title": "A word", "word": "[{|~", "variants": "each"}
)


def steps():
    return plan_of([LINE], special()).steps


def test_the_word_is_read_in_the_characters_of_the_variant_and_typed_as_its_codes():
    plain, german, swedish = steps()
    assert [word_shown(step) for step in steps()] == ["[{|~", "Ääöß", "Ääöü"]
    assert plain.typed == german.typed == swedish.typed == b"[{|~\r"
    assert german.expected.rows[0].startswith("Ääöß")
    assert in_codes(german, "Ääx") == "[{x" and variant_of(swedish) == "swedish-names"


def test_a_drawing_of_the_step_shows_the_word_as_it_is_read():
    assert "typed back Ääöß" in show_step(steps()[1])
