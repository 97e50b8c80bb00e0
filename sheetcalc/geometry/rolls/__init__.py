"""Rolls, sheets and boards: strips, sections and the plan they are cut from."""
