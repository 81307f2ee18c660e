"""Prints mutmut's name of every mutant of the files that are named, one a line.

It runs in the copy, since mutmut reads its configuration from the folder where it is started.
"""

import pathlib
import sys

from mutmut.mutation.file_mutation import mutate_file_contents
from mutmut.utils.format_utils import get_mutant_name

for word in sys.argv[1:]:
    path = pathlib.Path(word)
    for name in mutate_file_contents(word, path.read_text(encoding="utf-8")).mutant_names:
        print(get_mutant_name(path, name))
