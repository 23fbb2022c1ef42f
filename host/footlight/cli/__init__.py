"""The commands, one file each; `main` only registers them."""
