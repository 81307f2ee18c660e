"""What many boards show together: what belongs to the layout, and what to one board."""
