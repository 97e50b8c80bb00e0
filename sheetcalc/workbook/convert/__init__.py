"""Rows as found to domain records and findings."""
