"""Run by test_fittings.py within the box, on both interpreters: what probe and thermometer say."""

import world as worlds

world = worlds.begin(lambda: b"", lambda data: None, 0)
world.limit_us = 1_000_000_000_000

import ds18x20  # noqa: E402 - the world comes first
import machine  # noqa: E402
import onewire  # noqa: E402
import probe  # noqa: E402
import thermometer  # noqa: E402

TIMES = {25: 12, 50: 8, 100: 0, 800: 3}
PROBE = {"lux": 100.0, "lamp_lux": 0.0, "unplugged": False, "bus": ""}
WATER = {"celsius": 20.0, "number": 6, "fault": ""}


def wait_ms(span_ms):
    """Let time pass."""
    world.spend_us(span_ms * 1000)


def failure(function, *arguments):
    """Number of the OSError, and how long it took [ms]."""
    begin_us = world.now_us
    try:
        return function(*arguments)
    except OSError as error:
        return f"errno {error.args[0]} after {(world.now_us - begin_us) // 1000} ms"


bus = machine.I2C(0, scl=machine.Pin(21), sda=machine.Pin(20), freq=100_000, timeout=20_000)


def counts(gain, time_ms):
    """After one integration."""
    bus.writeto_mem(16, 0, (gain << 11 | TIMES[time_ms] << 6).to_bytes(2, "little"))
    wait_ms(time_ms + 1)
    return int.from_bytes(bus.readfrom_mem(16, 4, 2), "little")


print("nothing", bus.scan(), failure(bus.readfrom_mem, 16, 7, 2))
probe.fit(PROBE)
print("plugged", bus.scan(), hex(int.from_bytes(bus.readfrom_mem(16, 7, 2), "little")))
print("asleep", int.from_bytes(bus.readfrom_mem(16, 4, 2), "little"))
print("counts", counts(0, 100), counts(1, 100), counts(2, 25), counts(1, 800))
probe.fit(dict(PROBE, lux=10_000.0))
print("over", counts(1, 800), counts(2, 25))
probe.fit(dict(PROBE, bus="held"))
print("held", failure(bus.scan))
clock = machine.Pin(21, machine.Pin.OPEN_DRAIN, value=1)
import i2c  # noqa: E402

machine.listen(21, i2c.clock_moved)
for _ in range(9):
    clock.value(0)
    clock.value(1)
print("freed", failure(bus.scan))
probe.fit(dict(PROBE, bus="short"))
print("short", failure(bus.readfrom_mem, 16, 4, 2))

wire = onewire.OneWire(machine.Pin(22))
water = ds18x20.DS18X20(wire)
print("no wire", water.scan(), wire.reset())
thermometer.fit(WATER)
rom = water.scan()[0]
print("rom", [hex(byte) for byte in rom], wire.crc8(rom))
print("fresh", water.read_temp(rom))
water.convert_temp()
wait_ms(700)
print("too soon", water.read_temp(rom))
wait_ms(60)
print("measured", water.read_temp(rom))
for celsius in (-0.5, 24.0625, 38.49):
    thermometer.fit(dict(WATER, celsius=celsius))
    water.convert_temp()
    wait_ms(760)
    print("water", celsius, water.read_temp(rom))
thermometer.fit(dict(WATER, fault="noisy"))
try:
    water.read_temp(rom)
except Exception as error:  # noqa: BLE001 - MicroPython's own raises no narrower one
    print("noisy", error)
thermometer.fit(dict(WATER, fault="short"))
print("short", water.read_temp(rom), "a sum of zeros is right")
thermometer.fit(dict(WATER, number=7, fault="reset"))
other = water.scan()[0]
print("another", other != rom, water.read_temp(other))
try:
    water.read_temp(rom)
except Exception as error:  # noqa: BLE001
    print("the former", error)
begin_us = world.now_us
wire.reset()
wire.writebyte(0)
print("time", world.now_us - begin_us)
