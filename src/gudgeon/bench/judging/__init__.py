"""What readings prove: every limit of a sheet, of whatever shape, judged by one rule."""
