"""Plans of setting-out, cables and strips as pictures."""
