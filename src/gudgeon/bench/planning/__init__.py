"""When will it run? The job laid into his own hours, and why it takes as long as it does."""
