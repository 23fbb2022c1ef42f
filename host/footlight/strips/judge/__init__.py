"""From densities to limits, advice and its words."""
