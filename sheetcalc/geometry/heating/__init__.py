"""Electric floor heating: free floor, cables, their paths and leads, checked again."""
