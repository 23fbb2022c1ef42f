"""What can be wrong with a program or with a message."""


class CoreError(Exception):
    """Root of every error of the core."""


class ProgramError(CoreError):
    """A program breaks a rule: which step (0 = the head), which key, what was found, what is allowed."""

    def __init__(self, step, key, found, allowed):
        self.step = step
        self.key = key
        self.found = found
        self.allowed = allowed
        where = "step %d" % step if step else "head"
        super().__init__("%s: %s is %s; allowed: %s" % (where, key, found, allowed))


class Refusal(CoreError):  # noqa: N818 - it is an answer, not a fault
    """A request that is answered 'no': a code of `wire.REFUSALS`, and what that does not say by itself."""

    def __init__(self, code, text=""):
        self.code = code
        self.text = text
        super().__init__(text)


class StorageError(CoreError):
    """The flash did not do what it was told (full, worn, not readable)."""
