"""What is wrong with a file that was to be checked, told finding by finding."""

import sys

from termprobe.errors import EXIT_USAGE, FileError
from termprobe.notation import visible


def tell_findings(error: FileError) -> int:
    """Print each finding on a line of standard error, its place first; return the exit code."""
    for finding in error.findings:
        print(visible(finding), file=sys.stderr)
    return EXIT_USAGE
