"""What takes long to work out for a shipped profile, worked out where processes are forked from."""

from helpers.garbage import look_only_at_what_comes
from termprobe import yamlfile
from termprobe.diagnosis.key_table import table_of
from termprobe.diagnosis.showing import names_of_display
from termprobe.profile.load import load
from termprobe.report.formats.html import render as page_of_report

for profile_id in yamlfile.shipped_ids("profiles"):
    profile = load(profile_id)
    table_of(profile)
    if profile.circuit is not None:
        names_of_display(profile)

page_of_report([])
look_only_at_what_comes()
