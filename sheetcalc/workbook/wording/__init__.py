"""Words of every finding, by subject: one table words them all."""
