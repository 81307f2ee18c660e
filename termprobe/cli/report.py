"""`termprobe report`: what runs have shown."""

from termprobe.errors import EXIT_FAILED, EXIT_INCOMPLETE, EXIT_PASSED

FORMATS = ("text", "json")
EXIT_OF = {"pass": EXIT_PASSED, "fail": EXIT_FAILED, "incomplete": EXIT_INCOMPLETE}


def add_arguments(parser):
    """Add the words of this command to `parser`."""
    parser.add_argument("runs", nargs="+", metavar="RUN", help="run file")
    parser.add_argument("--format", choices=FORMATS, default="text", help="default: text")
    parser.add_argument(
        "-o", dest="output", metavar="FILE", help="write to FILE instead of standard output"
    )


def run(arguments):
    """Print the reports; return the exit code of the worst run."""
    from termprobe.cli.recorded import report_of, write_out
    from termprobe.report import json, text

    reports = [report_of(path) for path in arguments.runs]
    if arguments.format == "json":
        documents = [json.report_document(report) for report in reports]
        rendered = json.dump(documents[0] if len(documents) == 1 else documents) + "\n"
    else:
        rendered = "\n".join(text.render(report) for report in reports)
    write_out(rendered, arguments.output)
    codes = {EXIT_OF[report.verdict.verdict] for report in reports}
    return next(code for code in (EXIT_FAILED, EXIT_INCOMPLETE, EXIT_PASSED) if code in codes)
