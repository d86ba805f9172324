"""Labels for bags, plugs and hoses: what gets one, what stands on it, and what a code on one is of."""
