"""The invented engine and the invented job on it, as data: a sheet, a kit and the entries of a book."""
