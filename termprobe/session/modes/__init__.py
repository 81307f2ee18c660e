"""The modes of the session, one a file: what it waits for, its keys, what they do, what it shows.

Every module here holds its Mode as MODE; termprobe/session/mode_table.py lists them.
"""
