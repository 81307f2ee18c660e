"""Who holds a file, as the system tells of a child of this test."""

from helpers.lines import holding
from termprobe.link.holders import holders


def test_the_program_that_has_a_file_open_is_named_and_this_one_is_not(tmp_path):
    path = tmp_path / "device"
    path.touch()
    with open(path), holding(str(path)) as number:
        (holder,) = holders(str(path))
        assert holder.endswith(f", process {number}")
    assert holders(str(path)) == ()


def test_a_link_to_a_device_stands_for_the_device(tmp_path):
    device, link = tmp_path / "device", tmp_path / "link"
    device.touch()
    link.symlink_to(device)
    with holding(str(device)):
        assert len(holders(str(link))) == 1
