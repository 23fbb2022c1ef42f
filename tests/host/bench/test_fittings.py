"""The simulated probe on the I²C and thermometer on one wire, as a driver of the firmware meets them."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from crccheck.crc import Crc8Maxim

from footlight.bench.process import BOX, CPYTHON, MICROPYTHON, best_interpreter
from footlight.firmware_files import firmware_folders

CASE = Path(__file__).parent / "fittings_case.py"
MICROPYTHON_ALSO = [CPYTHON, MICROPYTHON] if best_interpreter() == MICROPYTHON else [CPYTHON]
# Counts: lux over 0.0042 x (2 / gain) x (800 ms / time), from memory of the data sheet. Sixteenths of a
# degree and 85 degrees after power-on: data sheet of the DS18B20, from memory. Sum of the number: crccheck.
EXPECTED = """\
nothing [] errno 5 after 0 ms
plugged [16] 0xc481
asleep 0
counts 1488 2976 46 23809
over 65535 4650
held errno 110 after 20 ms
freed [16]
short errno 110 after 20 ms
no wire [] False
rom ['0x28', '0x1', '0x2', '0x3', '0x4', '0x5', '0x6', '0x9e'] 0
fresh 85.0
too soon 85.0
measured 20.0
water -0.5 -0.5
water 24.0625 24.0625
water 38.49 38.5
noisy CRC error
short 0.0 a sum of zeros is right
another True 85.0
the former CRC error
time 1480
"""


@pytest.mark.parametrize("interpreter", MICROPYTHON_ALSO)
def test_the_fittings_say_what_their_data_sheets_say(interpreter: str):
    folders = os.pathsep.join([str(BOX), *map(str, firmware_folders())])
    starter = [sys.executable, str(CASE)]
    if interpreter == MICROPYTHON:
        starter = [str(Path(sys.executable).parent / "micropython"), str(CASE)]
    env = os.environ | {"PYTHONPATH": folders, "MICROPYPATH": folders + ":.frozen"}
    done = subprocess.run(starter, env=env, capture_output=True, text=True, timeout=60)
    assert done.stdout.splitlines() == EXPECTED.splitlines(), done.stderr
    assert Crc8Maxim.calc(bytes([0x28, 1, 2, 3, 4, 5, 6])) == 0x9E
