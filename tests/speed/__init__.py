"""Speed, measured and printed: never asserted."""
