"""What takes long to work out for a shipped profile, worked out where processes are forked from.

So are the plans of shipped scripts, and the digest of the program's code.
"""

from helpers.garbage import look_only_at_what_comes
from termprobe import yamlfile
from termprobe.diagnosis.cache_folder import key_of
from termprobe.diagnosis.key_table import table_of
from termprobe.diagnosis.showing import names_of_display
from termprobe.plan.compile import compile_plan
from termprobe.profile.load import load
from termprobe.report.formats.html import render as page_of_report
from termprobe.script.load import load as load_script

for profile_id in yamlfile.shipped_ids("profiles"):
    profile = load(profile_id)
    table_of(profile)
    for script_id in yamlfile.shipped_ids("scripts"):
        compile_plan(profile, load_script(script_id))
    if profile.circuit is not None:
        names_of_display(profile)

page_of_report([])
key_of()
look_only_at_what_comes()
