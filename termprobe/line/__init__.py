"""What proves a serial line by itself, before any screen is judged: characters sent and counted."""
