"""Carries a plan over a link to a witness and writes down what happened."""
