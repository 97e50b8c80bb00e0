"""Rooms: outline, floor pieces, walls, surfaces and what is measured of them."""
