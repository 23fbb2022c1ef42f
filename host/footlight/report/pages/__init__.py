"""Pages to print: self-contained HTML, black on white, no colour that a red lamp would swallow."""
