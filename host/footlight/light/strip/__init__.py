"""Test strips as plans: which band gets how much light, in which order, and where the blade goes.

A plan says what is to be done and nothing does it here: a sequence file is made from it elsewhere.
"""
