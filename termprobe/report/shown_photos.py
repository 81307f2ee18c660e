"""The photos of a run as a page of HTML holds them. Pure."""

import base64
from collections.abc import Mapping

from termprobe.report.record import RunReport

Pictures = Mapping[str, str]
"""Name of each photo that can be shown -> its bytes, in base 64."""


def pictures_of(report: RunReport) -> Pictures:
    """Return the photos of a run that can be shown."""
    shown = (found for found in report.photos if found.picture)
    return {found.kept.name: base64.b64encode(found.picture).decode("ascii") for found in shown}
