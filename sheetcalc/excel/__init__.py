"""Reading, generating and safely rewriting workbook files."""
