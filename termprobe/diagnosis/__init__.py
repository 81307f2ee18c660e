"""Which faults would explain what a run has shown."""
