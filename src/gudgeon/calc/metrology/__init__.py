"""What a reading proves."""
