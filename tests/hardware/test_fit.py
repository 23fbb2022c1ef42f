"""The printed parts as bodies: none cuts another, in any pose of the pedal, and what must touch is reached.

Needs trimesh and manifold3d (the dev extra).
"""

from functools import cache

import pytest
from hardware import printing

trimesh = pytest.importorskip("trimesh", reason="trimesh is not installed: the prints are NOT fitted here")
pytest.importorskip("manifold3d", reason="manifold3d is not installed: the prints are NOT fitted here")
D = printing.read_dimensions()
# Faces that lie on each other come out as slivers of rounding.
TOUCH_MM3 = 0.5
HINGE_Y = D["pedal_l"] / 2 - 10
HINGE_Z = D["base_h"] + D["treadle_rise"] - 2
BUTTON_Y = -D["pedal_l"] / 2 + D["button_from_front"]
STOP_Y = BUTTON_Y - 18


@cache
def printed(name: str):
    body = trimesh.load_mesh(printing.MADE / f"{name}.stl")
    body.merge_vertices()
    assert body.is_watertight
    return body


def at(body, matrix=None, shift=(0.0, 0.0, 0.0)):
    moved = body.copy()
    if matrix is not None:
        moved.apply_transform(matrix)
    moved.apply_translation(shift)
    return moved


def block(size, centre):
    return trimesh.creation.box(extents=size, transform=trimesh.transformations.translation_matrix(centre))


def shared_mm3(one, other) -> float:
    common = trimesh.boolean.intersection([one, other], engine="manifold")
    return 0.0 if common.is_empty else float(common.volume)


def turned(degrees: float, axis=(1, 0, 0), point=(0.0, 0.0, 0.0)):
    return trimesh.transformations.rotation_matrix(degrees * 3.141592653589793 / 180, axis, point)


def lid(lift: float = 0.0):
    """On the box, its outer face up."""
    flip = [[1, 0, 0, 0], [0, 1, 0, 0], [0, 0, -1, 0], [0, 0, 0, 1]]
    body = at(printed("lid"), flip, (0, 0, D["inner_h"] + D["wall"] + D["lid_t"] + lift))
    if body.volume < 0:
        body.invert()
    return body


INSIDE_Z = D["inner_h"] + D["wall"]


def bars():
    z = INSIDE_Z - D["boss_h"] - D["bar_t"]
    return [at(printed("bar"), shift=(x * D["bar_x"], D["display_y"], z)) for x in (-1, 1)]


@pytest.mark.parametrize("lift", [0.0, 1.0, 2.0])
def test_the_lid_closes(lift: float) -> None:
    """It cut both upper posts by 42.8 mm³, and still by 42.75 mm³ two millimetres up."""
    assert shared_mm3(printed("box"), lid(lift)) < TOUCH_MM3


def test_display_and_film_lie_in_the_frame_and_do_not_fall_through() -> None:
    film = block((D["film_w"], D["film_d"], D["film_t"]), (0, D["display_y"], INSIDE_Z - D["film_t"] / 2))
    display_z = INSIDE_Z - D["film_t"] - D["display_t"] / 2
    display = block((D["film_w"], D["film_d"], D["display_t"]), (0, D["display_y"], display_z))
    assert shared_mm3(lid(), film) < TOUCH_MM3 and shared_mm3(lid(), display) < TOUCH_MM3
    assert D["film_w"] > D["window_w"] + 1 and D["film_d"] > D["window_d"] + 1
    through = at(film, shift=(0, 0, D["lid_t"]))
    assert shared_mm3(lid(), through) > 50, "pushed at, the film rests on the window's edge"


def test_the_bars_clamp_the_display_and_touch_nothing_else() -> None:
    behind = INSIDE_Z - D["film_t"] - D["display_t"]
    for bar in bars():
        assert shared_mm3(bar, lid()) < TOUCH_MM3 and shared_mm3(bar, printed("box")) < TOUCH_MM3
        assert behind - bar.bounds[1][2] == pytest.approx(D["foam_t"], abs=0.05)
        pushed = at(bar, shift=(0, 0, D["foam_t"] + 0.5))
        display = block((128, 32, 12), (0, D["display_y"], behind + 6))
        assert shared_mm3(pushed, display) > 10


def test_the_board_and_what_stands_on_it_pass_below_the_display() -> None:
    """18 mm: the Pico on its sockets with a plug's collar, from memory; terminals and C1 are lower."""
    top = D["wall"] + D["post_h"] + D["board_t"]
    parts = block((D["board_w"], D["board_d"], 18), (0, D["board_y"], top + 9))
    for body in (lid(), *bars()):
        assert shared_mm3(parts, body) < TOUCH_MM3


# --- the pedal --------------------------------------------------------------------------------------------


def treadle(degrees: float):
    """In its hinge; 0 is level, more is up in front."""
    body = at(printed("pedal-treadle"), turned(180), (0, 0, D["treadle_t"]))
    return at(body, turned(-degrees, point=(0, HINGE_Y, 0)), (0, 0, HINGE_Z))


def lowest_deg() -> float:
    """Where the treadle meets its lower stops, found by halving on the bodies themselves."""
    low, high = -4.0, D["rest_deg"]
    for _ in range(14):
        middle = (low + high) / 2
        low, high = (
            (middle, high) if shared_mm3(treadle(middle), printed("pedal-base")) > 0.01 else (low, middle)
        )
    return high


def test_the_treadle_is_free_from_stop_to_stop() -> None:
    lowest = lowest_deg()
    assert -2 < lowest < 0
    for k in range(9):
        pose = lowest + (D["rest_deg"] - lowest) * k / 8
        assert shared_mm3(treadle(pose), printed("pedal-base")) < TOUCH_MM3


def button_gap(degrees: float) -> float:
    """From the button at rest up to the pusher [mm]; negative is pressed."""
    column = block((4, 4, 60), (0, BUTTON_Y, D["base_h"] + 30))
    common = trimesh.boolean.intersection([treadle(degrees), column], engine="manifold")
    return float(common.bounds[0][2]) - (D["base_h"] + D["button_above"])


def test_the_button_is_reached_before_the_stops_and_never_bottoms() -> None:
    """It was never reached: at the lower stops the treadle still stood 3 mm above it."""
    assert 0.5 < button_gap(D["rest_deg"]) < 6
    pressed = -button_gap(lowest_deg())
    assert D["button_click"] + 0.3 < pressed < D["button_travel"] - 0.2


def test_the_bolt_stops_the_treadle_upwards() -> None:
    """At rest the head's seat is where the bolt holds it; further up, treadle and head would share room."""
    seat = D["treadle_t"] - D["bolt_head_t"]
    reach = HINGE_Y - D["bolt_y"]
    turn = D["rest_deg"] * 3.141592653589793 / 180
    from math import cos, sin

    z = HINGE_Z + reach * sin(turn) + seat * cos(turn)
    y = HINGE_Y - reach * cos(turn) + seat * sin(turn)
    head = trimesh.creation.cylinder(
        radius=D["bolt_head_d"] / 2,
        height=D["bolt_head_t"],
        transform=trimesh.transformations.translation_matrix((0, y, z + D["bolt_head_t"] / 2)),
    )
    shank = trimesh.creation.cylinder(
        radius=2,
        height=60,
        transform=trimesh.transformations.translation_matrix((0, D["bolt_y"], D["base_h"])),
    )
    lifted = shared_mm3(treadle(D["rest_deg"] + 0.6), head) - shared_mm3(treadle(D["rest_deg"]), head)
    assert lifted > 20
    for pose in (lowest_deg(), D["rest_deg"]):
        assert shared_mm3(treadle(pose), shank) < TOUCH_MM3
    assert shared_mm3(printed("pedal-base"), shank) < TOUCH_MM3


def test_the_terminals_hang_free_above_the_floor_plate() -> None:
    plate = printed("pedal-floor")
    assert shared_mm3(plate, printed("pedal-base")) < TOUCH_MM3
    terminals = D["base_h"] - D["button_below"]
    assert terminals - D["floor_t"] >= 8
    button = block((16, 16, D["button_below"]), (0, BUTTON_Y, D["base_h"] - D["button_below"] / 2))
    hole = trimesh.creation.cylinder(
        radius=8, height=200, transform=trimesh.transformations.translation_matrix((0, BUTTON_Y, 0))
    )
    body = trimesh.boolean.intersection([button, hole], engine="manifold")
    assert shared_mm3(body, printed("pedal-base")) < TOUCH_MM3
