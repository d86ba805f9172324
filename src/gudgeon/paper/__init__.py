"""Answers as printed matter: what hangs on the engine when hands are black and the phone is flat."""
