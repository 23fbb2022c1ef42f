"""The settings of whoever runs the tests have no part in them; tests of settings name a file of their own."""

import os

os.environ["FOOTLIGHT_SETTINGS"] = os.devnull
