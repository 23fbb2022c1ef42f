"""What stands in the room: papers, baths, lenses, light setups, and what was found out about each."""
