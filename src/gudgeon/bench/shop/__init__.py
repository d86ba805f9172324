"""What goes to the machine shop with a part, and what is looked at when it comes back."""
