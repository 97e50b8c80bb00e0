"""Offcuts: which cut pieces share a tile, so that few tiles are opened."""
