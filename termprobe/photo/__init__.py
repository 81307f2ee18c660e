"""Photos beside run files: taken in small and without metadata, and found again."""
