"""The serial line: ports, pacing, capture of both directions."""
