"""Checks of the circuit in a SPICE simulator, on decks that are made from the netlist."""
