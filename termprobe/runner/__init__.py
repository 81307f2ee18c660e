"""Carries a plan over a link to an observer and writes down what happened."""
