"""Templates at true scale: where every fastener of a joint stands, from the data sheet or traced from a photo."""
