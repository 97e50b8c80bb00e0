"""Results to sheets of typed cells, one file a result tab."""
