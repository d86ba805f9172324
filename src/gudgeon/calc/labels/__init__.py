"""Labels: where each stands on its sheet, what stands where on it, flags round a wire, short codes."""
