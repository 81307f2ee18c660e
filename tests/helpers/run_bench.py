"""A run of a few steps over a link that records, with everything at hand."""

from helpers.bench import HEADER, FakeLink, plan
from termprobe.clock import CrankedClock
from termprobe.journal.file import Journal
from termprobe.journal.reading import read
from termprobe.runner.run import Run


class RunBench:
    """A run of `steps`; `events` is what its listener was told, `options` what the run is given."""

    def __init__(self, folder, *steps, observers=(), react=lambda data: b"", **options):
        self.clock = CrankedClock()
        self.link = FakeLink(self.clock, react)
        self.path = folder / "a.run.jsonl"
        self.journal = Journal.create(self.path, HEADER, self.clock)
        self.events = []
        self.options = options
        self.plan = plan(*steps)
        self.run = self.new_run(*observers)

    def new_run(self, *observers):
        tell = self.events.append
        return Run(self.plan, self.link, self.journal, self.clock, observers, tell, **self.options)

    def resumed(self, *observers):
        self.journal.close()
        self.journal = Journal.reopen(self.path, self.clock)
        self.run = self.new_run(*observers)
        return self.run

    def records(self, kind):
        """Return the records of that class in the run file."""
        return [record for record in read(self.path).records if isinstance(record, kind)]

    def told(self, kind):
        """Return the events of that class that the listener was told."""
        return [event for event in self.events if isinstance(event, kind)]

    def verdicts(self):
        return [step.verdict for step in self.run.verdicts().steps]

    def sent(self):
        return b"".join(self.link.written)
