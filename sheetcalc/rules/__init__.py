"""Figures and limits of the trade, each with its unit and source."""
