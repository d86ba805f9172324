"""Files that a person writes by hand: read with the line and column of every value."""
