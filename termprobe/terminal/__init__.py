"""The reference: bytes become commands, commands draw the glass that a board must show."""
