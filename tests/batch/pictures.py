"""Makes the pictures that README shows: a report, and the errata sheet of a club's batch.

    python -m tests.batch.pictures

Chromium draws them. Beside them stands the digest of each page, by which a test knows whether they
are current; when it fails, run this and look at them.
"""

import pathlib
import tempfile

from helpers.chromium import chromium
from helpers.club_batch import run_club
from helpers.readme_pictures import DIGESTS, FOLDER, digests, pages, picture_of

SIZES = {"report": (960, 1200), "errata": (960, 1100)}
"""Width and height of each picture, in pixels; the page goes on below."""


def main():
    FOLDER.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        run_club(folder)
        shown = pages(folder)
        for name, page in shown.items():
            path = pathlib.Path(folder, f"{name}.html")
            path.write_text(page, encoding="utf-8")
            size = ",".join(map(str, SIZES[name]))
            chromium(
                "--hide-scrollbars",
                f"--window-size={size}",
                f"--screenshot={picture_of(name)}",
                path.as_uri(),
            )
    DIGESTS.write_text(digests(shown), encoding="utf-8")


if __name__ == "__main__":
    main()
