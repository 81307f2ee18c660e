"""A card to print: a plan as a checklist for a bench without a computer."""
