"""What a picture of a characteristic shows, in millimeters: the readings behind its verdicts, and nothing else."""
