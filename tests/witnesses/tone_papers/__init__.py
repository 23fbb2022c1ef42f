"""Invented papers, reversed to a positive: what they do is known, so that a fit of them can be judged.

Nothing here knows how curves are fitted. What is drawn from what stands in README.md beside this file.
"""
