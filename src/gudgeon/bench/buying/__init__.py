"""What do I buy? What becomes of every part, the list, and from whom it costs least."""
