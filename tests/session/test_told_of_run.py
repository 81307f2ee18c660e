"""Groups and remarks go to the run and nowhere else."""

from helpers.bench import look
from helpers.photos import photo
from helpers.run_bench import RunBench
from termprobe.journal.records import Noted, Sent
from termprobe.runner.attention import Attention
from termprobe.session.messages import Note, SendGroups, Told
from termprobe.session.told_of_run import note, send_groups


def test_groups_are_of_the_step_in_progress_and_a_remark_of_its_own(tmp_path):
    bench = RunBench(tmp_path, look("a"))
    groups = SendGroups(bench.plan.steps[0].groups)
    send_groups(bench.run, groups)
    bench.run.begin(bench.plan.steps[0])
    send_groups(bench.run, groups)
    note(bench.run, Attention(bench.run), Note("dim", "a"), print)
    note(bench.run, Attention(bench.run), Note("late"), print)
    assert [one.step for one in bench.records(Sent)] == ["a", "a"]
    assert [(one.text, one.step) for one in bench.records(Noted)] == [("dim", "a"), ("late", None)]


def test_a_photo_is_kept_with_its_note_and_the_words_without_it(tmp_path):
    bench, told = RunBench(tmp_path, look("a")), []
    (tmp_path / "u7.jpg").write_bytes(photo())
    note(bench.run, Attention(bench.run), Note("hot", "a", str(tmp_path / "u7.jpg")), told.append)
    none = str(tmp_path / "none.jpg")
    note(bench.run, Attention(bench.run), Note("cold", "a", none), told.append)
    note(bench.run, Attention(bench.run), Note("", "a", none), told.append)
    noted, alone = bench.records(Noted)
    assert (alone.text, alone.step, alone.photo) == ("cold", "a", None)
    assert (tmp_path / noted.photo.name).exists() and noted.text == "hot"
    assert told == [
        Told(f"noted, with the photo as {noted.photo.name}"),
        Told(f"noted without the photo: {none}: must be a picture, and there is no such file"),
        Told(f"not noted: {none}: must be a picture, and there is no such file"),
    ]
