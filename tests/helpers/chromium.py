"""A browser without a window, with which tests look at pages as people do."""

import html
import json
import pathlib
import re
import subprocess
import tempfile

FOLDER = pathlib.Path(__file__).resolve().parent.parent / "pages"
AXE = FOLDER / "node_modules" / "axe-core" / "axe.min.js"
CALL = (
    "chromium",
    "--headless",
    "--no-sandbox",
    "--no-first-run",
    "--disable-gpu",
    "--disable-quic",
    "--disable-sync",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-dev-shm-usage",
)
LIMIT_S = 60
POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')


def chromium(*words):
    """Return what the browser prints; it has a profile of its own."""
    with tempfile.TemporaryDirectory(prefix="termprobe-browser-") as folder:
        done = subprocess.run(
            [*CALL, f"--user-data-dir={folder}", *map(str, words)],
            capture_output=True,
            text=True,
            timeout=LIMIT_S,
            check=True,
        )
    return done.stdout


def looked_at(folder, pages):
    """Return what is wrong with each of `pages`, name -> HTML, on a phone and on a desk.

    Each is a dict: how `wide` the page is and how much `room` there is, the entries of its contents
    that are `torn` between two columns, and the `violations`
    that axe-core finds. The rule against scripts is taken out of the page, so that it can run.
    """
    shown = {name: POLICY.sub("", page) for name, page in pages.items()}
    text = (FOLDER / "looked_at.html").read_text(encoding="utf-8")
    filled = {"PAGES": _literal(shown), "AXE": _literal(AXE.read_text("utf-8"))}
    text = re.sub("PAGES|AXE", lambda found: filled[found[0]], text)
    path = folder / "looked-at.html"
    path.write_text(text, encoding="utf-8")
    dumped = chromium("--virtual-time-budget=60000", "--dump-dom", path.as_uri())
    return json.loads(html.unescape(re.search(r'<pre id="found">(.*?)</pre>', dumped, re.S)[1]))


def _literal(value):
    """Return a value as JavaScript that may stand in a page."""
    return json.dumps(value).replace("</", "<\\/").replace("<!--", "<\\!--")


def pdf_pages(folder, page):
    """Return how many sheets of paper a page takes."""
    path, printed = folder / "page.html", folder / "page.pdf"
    path.write_text(page, encoding="utf-8")
    chromium("--no-pdf-header-footer", f"--print-to-pdf={printed}", path.as_uri())
    return len(re.findall(rb"/Type\s*/Page\b(?!s)", printed.read_bytes()))
