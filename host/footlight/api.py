"""The public API, name by name: what `import footlight` gives, from where it lies.

`footlight.NAME` loads this module, and with it what plans, links, keeps and reckons; `import footlight` alone
loads nothing, so that commands begin at once. What is not named here is internal and may change with any
version.
"""

from footlight.actions.check_before_run import check_before_run
from footlight.actions.clear_slot import clear_slot
from footlight.actions.collect_journal import Home, bring_home, collect_journal
from footlight.actions.fill_tray import TrayVolume, to_depth, with_volume
from footlight.actions.find_controllers import find_controllers
from footlight.actions.invent_scan import invent_strip
from footlight.actions.keep_notebook import back_up, export_json
from footlight.actions.link_to_bench import link_to_bench
from footlight.actions.list_sheets import list_sheets
from footlight.actions.list_slots import list_slots
from footlight.actions.mix_stock import dilute, mix_peroxide, pour_together
from footlight.actions.open_scan import ScanFile
from footlight.actions.plan_sequence import Plan, plan_sequence
from footlight.actions.read_strip import StripLayout, StripRead, StripRules, read_strip
from footlight.actions.search_notebook import search_notebook
from footlight.actions.send_sequence import Delivery, keep_and_send, send_sequence
from footlight.actions.show_sheet import ShownSheet, show_sheet
from footlight.actions.take_strip_doses import StripDoses
from footlight.actions.watch_run import RunStatus, changes, watch_run
from footlight.actions.write_example import write_example
from footlight.bench import Bench
from footlight.bench.feet import Feet, Slip
from footlight.bench.referee import Referee
from footlight.camera.exposure import Exposure as CameraExposure
from footlight.camera.exposure import Film
from footlight.camera.exposure import time_for as camera_time
from footlight.camera.extension import from_draw as extension_of_draw
from footlight.camera.meter import of_ev as scene_of_ev
from footlight.camera.meter import of_lux as scene_of_lux
from footlight.errors import FootlightError, InputError
from footlight.light.exposure import Exposure as LightExposure
from footlight.light.exposure import convert as convert_light
from footlight.light.inverse import Change as LightChange
from footlight.light.inverse import choices as light_choices
from footlight.light.inverse import height_for_time as light_height
from footlight.light.inverse import outcome as light_outcome
from footlight.light.inverse import stop_for_time as light_stop
from footlight.light.setup import Arrangement, LightSetup
from footlight.link.channel import Channel
from footlight.link.find import connect
from footlight.notebook.book import notebook as open_notebook
from footlight.sequence import Compiled, Sequence, Span, compile, load, load_setups, timeline
from footlight.views.plan import plan_as_dict, plan_lines
from footlight.views.sheet import as_dict as sheet_as_dict
from footlight.views.sheet import lines as sheet_lines

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
