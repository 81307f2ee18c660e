"""The reference: bytes become commands, commands draw the screen that a board must show."""
