"""The simulated board at circuit level, its faults, and the link it answers on."""
