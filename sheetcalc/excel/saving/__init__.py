"""Replacing files so that they are the old one or the new one, complete."""
