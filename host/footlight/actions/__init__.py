"""What the tool does, a verb a file: data in, a frozen dataclass out. Nothing here asks or tells a person."""
