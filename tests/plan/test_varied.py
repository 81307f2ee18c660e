"""Steps of a script that follow the options of a profile's display."""

import json

from helpers.scripts import SINGLE, look, plan_of
from helpers.special import special

PLACES = [{"text": "#[~"}]
EACH = look("places", PLACES, variants="each", title="The open codes")
HALF = look("half", [{"command": "home"}, {"text": "X"}], rows="half")


def test_each_position_of_the_option_gets_a_step_of_its_own():
    steps = plan_of([EACH], special()).steps
    assert [step.id for step in steps] == ["places-ascii", "places-german", "places-swedish"]
    titles = [step.title for step in steps]
    assert titles[:2] == ["The open codes: ascii", "The open codes: German"]
    shown = [step.expected.rows[0].rstrip() for step in steps]
    assert shown == ["#[~", "#Äß", "#Äü"]
    assert [step.expected.variant for step in steps] == ["", "german", "swedish-names"]
    assert {step.data for step in steps} == {b"\x02#[~"}
    settings = [dict(step.settings)["character-set"] for step in steps]
    assert settings == ["ascii", "german", "swedish"]


def test_what_needs_a_step_that_varies_needs_all_that_it_becomes():
    after = look("after", PLACES, needs=["places"])
    step = plan_of([EACH, after], special()).step("after")
    assert step.needs == ("places-ascii", "places-german", "places-swedish")
    assert dict(step.settings) == {"character-set": "ascii"}


def test_rows_name_the_position_that_lights_so_many():
    (step,) = plan_of([HALF], special()).steps
    assert dict(step.settings) == {"rows": "12"} and step.expected.rows[0][0] == "X"
    (step,) = plan_of([HALF.replace('"half"}', '"all"}')], special()).steps
    assert dict(step.settings) == {"rows": "24"}


def test_a_profile_without_such_options_is_not_asked():
    steps = plan_of([EACH, HALF], SINGLE).steps
    assert [step.id for step in steps] == ["places", "half"]
    assert "no option that chooses a national variant" in steps[0].not_fitted
    assert "no option that lights half of its rows" in steps[1].not_fitted


def test_what_is_wrong_is_told_where_the_step_of_the_script_stands():
    wrong = json.loads(EACH) | {"send": [{"pattern": "sold"}]}
    try:
        plan_of([json.dumps(wrong)], special())
    except Exception as error:
        assert all("try.yaml:7:" in finding for finding in error.findings)
    else:
        raise AssertionError("a pattern that there is not must be a finding")
