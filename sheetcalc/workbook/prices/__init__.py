"""A supplier's price list into the catalogue tabs: columns found by their headers, a plan first."""
