"""Plane algebra in whole 1/320 mm: points, slabs, regions, edges along one another."""
