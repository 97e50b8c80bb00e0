"""Plane geometry of rooms, tiles, rolls and cables; pure."""
