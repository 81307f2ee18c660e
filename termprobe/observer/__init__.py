"""Whoever answers a step: the builder, the keyboard of the board, a dump command, returned
bytes.
"""
