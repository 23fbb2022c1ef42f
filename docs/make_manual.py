"""Writes docs/footlight.1, the page for `man`, from the commands themselves: `python docs/make_manual.py`."""

from pathlib import Path

from footlight.cli.manual_page import page

PAGE = Path(__file__).with_name("footlight.1")

if __name__ == "__main__":
    PAGE.write_text(page(), encoding="ascii")
