"""The printed board: two layers, from the same holes as the perfboard."""
