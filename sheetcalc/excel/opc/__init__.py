"""The package (OPC): zip, parts, XML, what may stand in it, formulas as text."""
