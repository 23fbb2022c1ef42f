"""Device models, each with where its figures come from, at the corners that could hurt.

FETs are VDMOS models, not switches. Figures of the IRLZ44N data sheet (from memory, to be confirmed in it):
threshold 1.0 to 2.0 V at 0.25 mA, transconductance at least 21 S at 25 A, on-resistance 35 mΩ at 4 V,
capacitances 1700 / 400 / 150 pF (input, output, reverse transfer, at 25 V), 55 V.

- 'weak' is the least part that may be sold: threshold 2.0 V, Kp = gfs² / (2 I) = 21² / 50 = 8.8 A/V².
- 'strong' is the one that lets go last: threshold 1.0 V less 0.2 V for a hot box (about −5 mV/K), Kp 60 A/V².
- 'typical' lies between. Kp 60 and 30 are estimates from the shape of typical transfer curves.
"""

from __future__ import annotations

from dataclasses import dataclass

FET_BREAKDOWN_V = 55.0
# Collector to emitter, base open: BC327 data sheets, from memory.
BC327_V = 45.0


@dataclass(frozen=True)
class Corner:
    """One set of extremes.

    Attributes:
        name: what it is called in the tables.
        threshold_v, kp: of the FETs [V], [A/V²].
        resistance, capacitance: factors on every marked value.
        logic_v: the Pico's 3.3 V, as it might be [V].
    """

    name: str
    threshold_v: float
    kp: float
    resistance: float
    capacitance: float
    logic_v: float


TYPICAL = Corner("typical", 1.5, 30.0, 1.0, 1.0, 3.3)
# Hard to switch on: weak FETs, small capacitors, low supply of the chip.
HARD_ON = Corner("weak FETs, low supply", 2.0, 8.8, 0.95, 0.9, 3.15)
# Slow to let go: FETs that conduct at little voltage, large capacitors and resistors, high supply.
SLOW_OFF = Corner("strong hot FETs, slow parts", 0.8, 60.0, 1.05, 1.1, 3.45)
CORNERS = (TYPICAL, HARD_ON, SLOW_OFF)


def model_lines(corner: Corner) -> list[str]:
    """Return the .model lines for one corner."""
    return [
        f".model FET VDMOS(Vto={corner.threshold_v} Kp={corner.kp} Rd=10m Rs=8m Rg=2 Lambda=0.01 "
        "Cgs=1.55n Cgdmax=1.5n Cgdmin=0.1n A=0.5 Cjo=1.4n Is=10p Rb=10m ksubthres=0.08)",
        # Schottky diodes: forward drop fitted to 0.32 V at 1 mA (BAT85) and 0.32 V at 0.1 A (1N5817).
        ".model BAT85 D(Is=0.2u N=1.4 Rs=2 Cjo=10p Bv=30)",
        ".model 1N5817 D(Is=3u N=1.15 Rs=0.05 Cjo=190p Bv=20)",
        # Silicon: 0.7 V at 10 mA and about 1 V at 1 A, as every data sheet of these types shows.
        ".model 1N4148 D(Is=4n N=1.9 Rs=0.6 Cjo=4p Tt=6n Bv=100)",
        ".model 1N4007 D(Is=4n N=1.9 Rs=0.04 Cjo=25p Tt=4u Bv=1000)",
        ".model 1N4742A D(Is=1n N=1.5 Rs=2 Cjo=100p Bv=12 Ibv=21m)",
        # 630 nm LED: 1.8 V at 2 mA.
        ".model LED D(Is=1e-20 N=1.8 Rs=5 Bv=100)",
        # BC337-40, BC327-40: least gain of their class at 0.1 A, 250; from memory.
        ".model BC337 NPN(Is=4e-14 Bf=250 Vaf=100 Ikf=0.7 Rb=10 Rc=0.4 Re=0.1 Cje=60p Cjc=20p Tf=0.6n Br=10)",
        ".model BC327 PNP(Is=4e-14 Bf=250 Vaf=80 Ikf=0.7 Rb=10 Rc=0.4 Re=0.1 Cje=60p Cjc=20p Tf=0.6n Br=10)",
    ]


# Which model a part of parts.toml uses.
MODEL_OF = {
    "fet": "FET",
    "bc337": "BC337",
    "bc327": "BC327",
    "schottky-1a": "1N5817",
    "schottky-small": "BAT85",
    "diode-1a": "1N4007",
    "diode-small": "1N4148",
    "zener-12": "1N4742A",
    "led-red": "LED",
}
