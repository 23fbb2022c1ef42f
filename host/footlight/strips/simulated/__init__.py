"""Simulated reversal papers and a simulated scanner, so that the truth about a strip is known.

For tests and for the demo. Physically reasoned, but invented: no paper that can be bought is meant.
"""
