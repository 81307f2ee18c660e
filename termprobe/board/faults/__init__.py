"""The faults that a simulated board can have: names, and what each does to the wiring."""
