"""Scans of test strips on invented papers, from the public page and physics alone: a judge of the reader.

Nothing here knows how strips are read. What is drawn from what stands in README.md beside this file.
"""
