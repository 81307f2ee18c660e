"""Drawing by a seed, and what of a diff names a mutant."""

from mutation.mutants import changed_lines, drawn

DIFF = """--- termprobe/a.py
+++ termprobe/a.py
@@ -10,4 +10,4 @@
 def of(one):
-    if one < 2:
+    if one <= 2:
         return --one
"""


def test_the_same_seed_draws_the_same_and_no_more_than_there_are():
    everything = list(range(100))
    assert drawn(everything, 5, 1) == drawn(everything, 5, 1) != drawn(everything, 5, 2)
    assert sorted(drawn(everything, 500, 1)) == everything


def test_a_change_is_its_lines_without_where_they_stand():
    assert changed_lines(DIFF) == ("- if one < 2:", "+ if one <= 2:")
    assert changed_lines(DIFF.replace("@@ -10,4 +10,4 @@", "@@ -7,4 +7,4 @@")) == changed_lines(
        DIFF
    )
