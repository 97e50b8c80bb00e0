"""Our sheets into somebody's book: additions only, our own tabs known again."""
