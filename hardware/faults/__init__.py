"""Every single fault of the circuit: what the lamp, the white light and the pedal's stop then do."""
