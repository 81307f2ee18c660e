"""Run files of soaks, read back."""

from dataclasses import dataclass

from termprobe.errors import FileError, exit_code_of
from termprobe.journal.reading import header_in, read, read_bytes
from termprobe.journal.records import Header
from termprobe.journal.soaking import SOAK, SoakBegun
from termprobe.line.soak import Far
from termprobe.report.formats.json import dump
from termprobe.report.soak_page import begun_of, far_of, soak_document, soak_page, wanted_of


@dataclass(frozen=True)
class Soaked:
    """A soak, as its run file tells of it."""

    path: str
    header: Header
    begun: SoakBegun
    far: Far

    @property
    def exit_code(self) -> int:
        """That of its verdict."""
        return exit_code_of(self.far.verdict(wanted_of(self.begun)))

    def rendered(self, is_json: bool) -> str:
        """Return its page, or its document."""
        if is_json:
            return dump(soak_document(self.path, self.begun, self.far))
        return soak_page(self.path, self.header, self.begun, self.far)


def is_soak(path: str) -> bool:
    """Return whether the run file at `path` is of a soak; raise FileError where it is none."""
    header = header_in(read_bytes(path))
    return header is not None and header.script == SOAK and not header.script_text


def load_soak(path: str) -> Soaked:
    """Return the soak of the run file at `path`; raise FileError where it is none."""
    recording = read(path)
    begun = begun_of(recording.records)
    if recording.header is None or begun is None:
        raise FileError([f"{path}: must be the run file of a soak, and this one does not tell how"])
    return Soaked(path, recording.header, begun, far_of(recording.records))
