"""Input tabs: one record a row; each tab declared once, as data."""
