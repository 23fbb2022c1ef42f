"""Electrical rules: each function returns what is wrong with a circuit, one sentence a fault."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from hardware.netlist import Circuit, Job, Part, quantity

DRIVING = {Job.OUTPUT, Job.POWER_OUT}
GIVING = {Job.OUTPUT, Job.POWER_OUT, Job.BUS}

# Two-legged parts through which a steady voltage can reach the other side, and the legs that conduct
# forward. A capacitor, a reversed diode and a clamp do not count; a coil and a fuse do.
CONDUCTING = {
    "resistor": ("1", "2"),
    "fuse": ("1", "2"),
    "relay-module": ("A1", "A2"),
    "sounder": ("1", "2"),
}
ONE_WAY = ("diode", "led", "photodiode")


def check(circuit: Circuit) -> list[str]:
    """Return every fault that the rules find; an empty list is a circuit without errors."""
    return [fault for rule in RULES for fault in rule(circuit)]


def unconnected_pins(circuit: Circuit) -> Iterator[str]:
    """Every pin is in a net, but those that the part leaves unused; those are in none."""
    for part in circuit.parts.values():
        for pin in part.pins:
            net = circuit.net_of(part.ref, pin.name)
            spare_output = pin.job is Job.OUTPUT and part.stock.shape == "buffer"
            if net is None and pin.job is not Job.UNUSED and not spare_output:
                yield f"{part.ref}.{pin.name} is connected to nothing"
            if net is not None and pin.job is Job.UNUSED:
                yield f"{part.ref}.{pin.name} must stay unconnected, and is in {net}"


def lonely_nets(circuit: Circuit) -> Iterator[str]:
    """A net joins at least two pins."""
    for net, ends in circuit.nets.items():
        if len(ends) < 2:
            yield f"net {net} has one end only"


def fighting_outputs(circuit: Circuit) -> Iterator[str]:
    """One driver a net."""
    for net in circuit.nets:
        drivers = [f"{part.ref}.{pin.name}" for part, pin in circuit.ends(net) if pin.job in DRIVING]
        if len(drivers) > 1:
            yield f"net {net} has several drivers: {', '.join(drivers)}"


def undriven_inputs(circuit: Circuit) -> Iterator[str]:
    """An input has something that sets its level: a driver, or a resistor to a net that is driven."""
    for net in circuit.nets:
        inputs = [f"{part.ref}.{pin.name}" for part, pin in circuit.ends(net) if pin.job is Job.INPUT]
        if inputs and not any(_sets_level(circuit, near) for near in _reach(circuit, net)):
            yield f"{inputs[0]} on net {net} has nothing that sets its level"


def unpowered_supplies(circuit: Circuit) -> Iterator[str]:
    """A supply pin gets a voltage, through fuse or diode if need be."""
    for net, volts in voltage_bounds(circuit).items():
        for part, pin in circuit.ends(net):
            if pin.job is Job.POWER_IN and not volts:
                yield f"{part.ref}.{pin.name} on net {net} gets no supply"


def mixed_grounds(circuit: Circuit) -> Iterator[str]:
    """Ground pins are all in one net, and no driver is in it."""
    nets = {
        net for net in circuit.nets for _, pin in circuit.ends(net) if pin.job is Job.GROUND
    }  # one net is what is wanted
    if len(nets) > 1:
        yield f"ground is split over {', '.join(sorted(nets))}"
    for net in nets:
        for part, pin in circuit.ends(net):
            if pin.job in GIVING:
                yield f"{part.ref}.{pin.name} drives into ground"


def too_high_voltages(circuit: Circuit) -> Iterator[str]:
    """No pin can be reached by a steady voltage above what it bears."""
    bounds = voltage_bounds(circuit)
    for net, volts in bounds.items():
        for part, pin in circuit.ends(net):
            if pin.max_v is not None and volts > pin.max_v:
                yield f"{part.ref}.{pin.name} bears {pin.max_v} V, and net {net} can reach {volts} V"


def too_low_levels(circuit: Circuit) -> Iterator[str]:
    """Every driven logic input is driven high enough to read as high."""
    bounds = voltage_bounds(circuit)
    for net, volts in bounds.items():
        for part, pin in circuit.ends(net):
            if pin.high_v is not None and 0 < volts < pin.high_v:
                yield f"{part.ref}.{pin.name} needs {pin.high_v} V for a high, and net {net} gives {volts} V"


def floating_gates(circuit: Circuit) -> Iterator[str]:
    """Every transistor's control pin has a resistor to where it is off: a floating pin is dark."""
    for part in circuit.of_shape("fet", "npn"):
        net = circuit.net_of(part.ref, "G" if part.stock.shape == "fet" else "B")
        if net is not None and not any(_is_ground(circuit, far) for far in _beyond(circuit, net, "resistor")):
            yield f"{part.ref} has no pull-down: a floating pin could switch it on"
    for part in circuit.of_shape("pnp"):
        base, emitter = circuit.net_of(part.ref, "B"), circuit.net_of(part.ref, "E")
        if base is not None and emitter not in list(_beyond(circuit, base, "resistor")):
            yield f"{part.ref} has no resistor from base to emitter: a floating base could switch it on"


def coil_legs(circuit: Circuit) -> Iterator[str]:
    """Relay coils are pulled down by a transistor; the lamp's has a switch in its other leg too.

    So no wire of the lamp's coil that touches a rail lights it. Nothing is driven by an active-low signal.
    """
    for part in circuit.of_shape("relay-module"):
        high, low = circuit.net_of(part.ref, "A1"), circuit.net_of(part.ref, "A2")
        pulls = {("fet", "D"), ("npn", "C")}
        if low is None or not any((p.stock.shape, pin.name) in pulls for p, pin in circuit.ends(low)):
            yield f"{part.ref}: the coil's low side is not at the drain or collector that pulls it down"
        if part.stock.key != "lamp-module" or high is None:
            continue
        if not any(p.stock.shape == "pnp" and pin.name == "C" for p, pin in circuit.ends(high)):
            yield f"{part.ref}: the lamp's coil has no switch in its high leg"


def unclamped_coils(circuit: Circuit) -> Iterator[str]:
    """Every coil has a diode from its low end to its high end, straight or through a zener diode."""
    for part in circuit.of_shape("relay-module", "sounder"):
        high, low = (circuit.net_of(part.ref, pin.name) for pin in part.pins)
        if low is None or not any(
            high in (net, *_beyond_zener(circuit, net)) for net in _cathodes(circuit, low)
        ):
            yield f"{part.ref}: nothing takes the coil's current when it is switched off"


def _beyond_zener(circuit: Circuit, net: str) -> Iterator[str | None]:
    for part, pin in circuit.ends(net):
        if part.stock.shape == "zener" and pin.name == "K":
            yield circuit.net_of(part.ref, "A")


def _cathodes(circuit: Circuit, net: str) -> Iterator[str]:
    for part, pin in circuit.ends(net):
        far = circuit.net_of(part.ref, "K") if part.stock.shape == "diode" and pin.name == "A" else None
        if far is not None:
            yield far


def missing_decoupling(circuit: Circuit) -> Iterator[str]:
    """Each supply pin has a capacitor to ground on its own net."""
    for net in circuit.nets:
        for part, pin in circuit.ends(net):
            if pin.job is not Job.POWER_IN:
                continue
            if not any(_is_ground(circuit, far) for far in _beyond(circuit, net, "capacitor")):
                yield f"{part.ref}.{pin.name}: no capacitor to ground on net {net}"


def bridged_parts(circuit: Circuit) -> Iterator[str]:
    """No part has two of its legs on one net, but chips, whose ground is on several."""
    for part in circuit.parts.values():
        nets = [circuit.net_of(part.ref, pin.name) for pin in part.pins]
        doubled = {net for net in nets if net is not None and nets.count(net) > 1}
        if doubled and part.stock.shape not in ("pico", "buffer"):
            yield f"{part.ref} is bridged: two of its legs are on {', '.join(sorted(doubled))}"


def missing_protection(circuit: Circuit) -> Iterator[str]:
    """Behind the fuse stands a clamp; each pedal line has a filter; each LED a diode against its reverse."""
    for part in circuit.of_shape("fuse"):
        behind = circuit.net_of(part.ref, "2") or ""
        if not any(p.stock.shape == "zener" and pin.name == "K" for p, pin in circuit.ends(behind)):
            yield f"{part.ref}: no clamp such as D1 stands behind the fuse, on {behind}"
    for net in ("PEDAL_MAKE", "PEDAL_REST"):
        if not any(_is_ground(circuit, far) for far in _beyond(circuit, net, "capacitor")):
            yield f"{net} has no capacitor against what its cable picks up"
    for part in circuit.of_shape("led"):
        anode, cathode = circuit.net_of(part.ref, "A"), circuit.net_of(part.ref, "K")
        if anode not in list(_cathodes(circuit, cathode or "")):
            yield f"{part.ref}: no diode takes the reverse voltage of the coil's kick"


def cable_ends(circuit: Circuit) -> Iterator[str]:
    """What hangs on a cable is joined to a contact of a connector, pin by pin."""
    for part in circuit.parts.values():
        for pin in () if part.on_board else part.pins:
            net = circuit.net_of(part.ref, pin.name)
            ends = [] if net is None else circuit.ends(net)
            if not any(p.on_board and p.stock.shape.startswith("connector") for p, _ in ends):
                where = "J2" if part.ref == "K1" else "its connector"
                yield f"{part.ref}.{pin.name} does not reach {where}"


def does_its_job(circuit: Circuit) -> Iterator[str]:
    """Solved in every state, the lamp is dark or lit as asked, the white light locked, the pedal stops."""
    # Imported here: the solver is no part of what reads and draws a circuit.
    from hardware.faults.judge import works
    from hardware.faults.model import Model, NoSolutionError

    try:
        yield from works(Model(circuit))
    except (NoSolutionError, KeyError, ValueError) as error:
        yield f"the lamp's circuit cannot be solved: {error}"


def voltage_bounds(circuit: Circuit) -> dict[str, float]:
    """Return the highest steady voltage that can appear on each net [V].

    A bound: of the dividers, only a resistor straight to ground counts.
    """
    bounds = dict.fromkeys(circuit.nets, 0.0)
    for net in circuit.nets:
        if not _is_ground(circuit, net):
            given = [pin.out_v for _, pin in circuit.ends(net) if pin.out_v is not None]
            bounds[net] = max(given, default=0.0)
    moved = True
    while moved:
        moved = False
        for net in circuit.nets:
            volts = max((bounds[far] * share for far, share in _feeds(circuit, net)), default=0.0)
            if not _is_ground(circuit, net) and volts > bounds[net] + 1e-9:
                bounds[net], moved = volts, True
    return bounds


def _feeds(circuit: Circuit, net: str) -> Iterator[tuple[str, float]]:
    """Yield each net whose steady voltage can reach this one, and what share of it."""
    pulls = [
        quantity(part.stock.value)
        for part, pin in circuit.ends(net)
        if part.stock.shape == "resistor"
        and _is_ground(circuit, circuit.net_of(part.ref, _other(part, pin.name)))
    ]
    for part, pin in circuit.ends(net):
        far = _far_source(circuit, part, pin.name)
        if far is not None and pulls and part.stock.shape == "resistor":
            ohm = quantity(part.stock.value)
            yield far, min(pulls) / (min(pulls) + ohm)
        elif far is not None:
            yield far, 1.0


def _reach(circuit: Circuit, net: str) -> set[str]:
    """Return the nets whose steady voltage can reach this one; ground ends the search."""
    seen: set[str] = set()
    queue = [net]
    while queue:
        here = queue.pop()
        if here not in seen:
            seen.add(here)
            queue += [] if _is_ground(circuit, here) else _sources(circuit, here)
    return seen


def _sources(circuit: Circuit, net: str) -> Iterator[str]:
    for part, pin in circuit.ends(net):
        far = _far_source(circuit, part, pin.name)
        if far is not None:
            yield far


def _far_source(circuit: Circuit, part: Part, pin: str) -> str | None:
    """Return the net behind a part from which a steady voltage can come to this pin."""
    legs = CONDUCTING.get(part.stock.shape)
    if legs is not None:
        return circuit.net_of(part.ref, legs[1] if pin == legs[0] else legs[0])
    if part.stock.shape in ONE_WAY and pin == "K":
        return circuit.net_of(part.ref, "A")
    return None


def _sets_level(circuit: Circuit, net: str) -> bool:
    return any(pin.job in GIVING or pin.job is Job.GROUND for _, pin in circuit.ends(net))


def _is_ground(circuit: Circuit, net: str | None) -> bool:
    return net is not None and any(pin.job is Job.GROUND for _, pin in circuit.ends(net))


def _beyond(circuit: Circuit, net: str, shape: str) -> Iterator[str]:
    """Yield the nets on the far side of each two-legged part of a shape."""
    for part, pin in circuit.ends(net):
        if part.stock.shape == shape and (far := circuit.net_of(part.ref, _other(part, pin.name))):
            yield far


def _other(part: Part, pin: str) -> str:
    return next(leg.name for leg in part.pins if leg.name != pin)


RULES: tuple[Callable[[Circuit], Iterator[str]], ...] = (
    unconnected_pins,
    lonely_nets,
    fighting_outputs,
    undriven_inputs,
    unpowered_supplies,
    mixed_grounds,
    too_high_voltages,
    too_low_levels,
    floating_gates,
    coil_legs,
    unclamped_coils,
    missing_decoupling,
    bridged_parts,
    missing_protection,
    cable_ends,
    does_its_job,
)
