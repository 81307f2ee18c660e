"""The full-screen companion at the bench."""
