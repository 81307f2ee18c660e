"""A command line that is told can be copied: a shell takes it apart into the same words."""

import os
import subprocess

from hypothesis import example, given
from hypothesis import strategies as st

from helpers.examples import examples
from termprobe.cli.shell_words import command_line
from termprobe.notation import visible

WORDS = st.text(st.characters(exclude_characters="\0", exclude_categories=["Cs"]))


@examples(15)
@given(st.lists(WORDS, max_size=4))
@example(["\x1b[2J'\\", "a\nb", "\udcff\u202e", "plain", "", "it's"])
def test_a_shell_takes_it_apart_into_the_same_words(words):
    line = command_line(words)
    assert visible(line) == line
    program = f"for word in {line}; do printf '%s\\0' \"$word\"; done"
    done = subprocess.run(["bash", "-c", program], capture_output=True, check=True)
    assert done.stdout.split(b"\0")[:-1] == [os.fsencode(word) for word in words]
