"""What all formats of a report are laid out from: facts, as frozen records."""
