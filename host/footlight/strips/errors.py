"""What can be wrong with a scan."""

from footlight.errors import InputError


class ScanError(InputError):
    """A scan cannot be read, or what it shows is no strip; nothing was kept."""
