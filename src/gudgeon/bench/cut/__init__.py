"""What does the cut do? What goes in (`given`, `inputs`), what follows, what limits it, and what the shop is told."""
