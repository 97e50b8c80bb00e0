"""Quantity lines of a takeoff, one file each."""
