"""What will it cost? Expected, agreed and spent; a range from the start, and the closing account."""
