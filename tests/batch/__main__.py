"""Writes the run files of an invented club's twelve boards, in a few seconds.

python -m tests.batch FOLDER
termprobe errata FOLDER
"""

import argparse

from helpers.club_batch import run_club

parser = argparse.ArgumentParser(description=__doc__)
parser.add_argument("folder", help="where the run files go, in a folder for each board")
run_club(parser.parse_args().folder)
