"""`termprobe explain --words` prints all words that are understood."""

from termprobe.cli.main import main
from termprobe.diagnosis.unmodelled import UNMODELLED


def test_all_words_are_printed_without_a_profile(capsys):
    assert main(["explain", "--words"]) == 0
    said = capsys.readouterr().out
    assert all(f"  {one.name}: " in said for one in UNMODELLED)
    assert "cursor missing; cursor everywhere" in said and "rows N-M" in said
    assert all(len(line) <= 80 for line in said.split("\n"))
