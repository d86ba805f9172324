"""Pure kernels on plain floats, and the calculators that show them to a person."""
