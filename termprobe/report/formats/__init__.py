"""The formats of a report: one file each, found by listing this folder."""
