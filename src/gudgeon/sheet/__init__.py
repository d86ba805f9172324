"""The data sheet: what the manual says of this engine, every figure with its source."""
