"""Exit codes."""

import inspect

import pytest

from termprobe import errors


@pytest.mark.parametrize(("verdict", "code"), [("pass", 0), ("fail", 1), ("incomplete", 4)])
def test_each_verdict_of_a_run_has_its_exit_code(verdict, code):
    assert errors.exit_code_of(verdict) == code


def test_no_error_ends_with_the_exit_code_of_a_board_that_passed_or_failed():
    families = [
        value
        for value in vars(errors).values()
        if inspect.isclass(value) and issubclass(value, errors.TermprobeError)
    ]
    codes = {family.exit_code for family in families}
    assert codes == {errors.EXIT_USAGE, errors.EXIT_LINK, errors.EXIT_INCOMPLETE}


def test_a_file_error_holds_all_its_findings():
    error = errors.FileError(text for text in ("first", "second"))
    assert error.findings == ("first", "second")
    assert str(error) == "first\nsecond"
