"""Prints of the bench for the pages' tests."""

from tests.host.repeating.conftest import evening, folder

__all__ = ["evening", "folder"]
