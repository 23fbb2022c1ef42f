"""Footlight: the tool that plans for a foot-operated darkroom controller.

    >>> import footlight
    >>> compiled = footlight.compile(footlight.load("reversal-print.toml"))

What a script may use is listed in `__all__` and lies in `footlight.api`; the page is docs/api.md. Written
quantities are read by `footlight.quantities`. Everything else is internal.
"""

from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"

if TYPE_CHECKING:
    from footlight.api import *  # noqa: F403

__all__ = [
    "Arrangement",
    "Bench",
    "CameraExposure",
    "Channel",
    "Compiled",
    "Delivery",
    "Feet",
    "Film",
    "FootlightError",
    "Home",
    "InputError",
    "LightChange",
    "LightExposure",
    "LightSetup",
    "Plan",
    "Referee",
    "RunStatus",
    "ScanFile",
    "Sequence",
    "ShownSheet",
    "Slip",
    "Span",
    "StripDoses",
    "StripLayout",
    "StripRead",
    "StripRules",
    "TrayVolume",
    "back_up",
    "bring_home",
    "camera_time",
    "changes",
    "check_before_run",
    "clear_slot",
    "collect_journal",
    "compile",
    "connect",
    "convert_light",
    "dilute",
    "export_json",
    "extension_of_draw",
    "find_controllers",
    "invent_strip",
    "keep_and_send",
    "light_choices",
    "light_height",
    "light_outcome",
    "light_stop",
    "link_to_bench",
    "list_sheets",
    "list_slots",
    "load",
    "load_setups",
    "mix_peroxide",
    "open_notebook",
    "plan_as_dict",
    "plan_lines",
    "plan_sequence",
    "pour_together",
    "read_strip",
    "scene_of_ev",
    "scene_of_lux",
    "search_notebook",
    "send_sequence",
    "sheet_as_dict",
    "sheet_lines",
    "show_sheet",
    "timeline",
    "to_depth",
    "watch_run",
    "with_volume",
    "write_example",
]


def __getattr__(name: str) -> Any:
    # Only what is asked for is loaded, and only then: a command begins without it.
    if name in __all__:
        from footlight import api

        return getattr(api, name)
    raise AttributeError(f"module 'footlight' has no attribute '{name}'; what it has is in footlight.__all__")


def __dir__() -> list[str]:
    return [*globals(), *__all__]
