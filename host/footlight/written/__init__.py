"""What a person writes beside plain quantities: exposures, changes of a light, doses, scans, mixes.

Readers take the written text and the subject that heads an error (`field("found")`), as those of
`quantities` do, and give what the mathematics takes; a command and a page call the same ones.
"""
