"""The kinds of things that have a label."""

KINDS = ("connector", "hose", "strap", "bracket", "bolt", "cover", "part", "plug", "joint")
"""What can be asked for; `joint` are the bolts of a joint in their bag."""
