"""The steps from an empty file to the newest notebook: `NNNN_name.sql`, never changed once released."""
