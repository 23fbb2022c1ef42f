"""Pins and their polarity. Made from hardware/pins.toml: do not edit."""

LAMP_GATE = 2  # lamp driver, first of two: high lets the coil draw current, if the pump runs too
LAMP_PUMP = 3  # lamp driver, second of two: a 100 kHz square wave that holds the series element up
WHITE = 6  # white-light contact: high allows the dedicated white lamp
PEDAL_MAKE = 10  # pedal make contact: low while pressed
PEDAL_REST = 12  # pedal rest contact, jump pin of the lamp: low at rest, high ends the light
BUZZER = 15  # buzzer, by pulse-width modulation
SPI_CS = 17  # display: load (chip select, low while a frame is sent)
SPI_SCK = 18  # display: clock (SPI0)
SPI_MOSI = 19  # display: data (SPI0)
I2C_SDA = 20  # kept free for a light sensor (I2C0 data)
I2C_SCL = 21  # kept free for a light sensor (I2C0 clock)
LED = 25  # green LED on the board itself: kept dark, or covered
SENSE = 26  # lamp sense (ADC0), optional: rises while the lamp is lit

# Level of a pedal line while its contact is closed; open, or broken, reads the other level.
PEDAL_CLOSED = 0
# Driven low before anything else.
SAFE_LOW = (LAMP_GATE, LAMP_PUMP, WHITE, BUZZER)
# The chip's own weak resistors, besides those on the board.
PULL_UP = (PEDAL_MAKE, PEDAL_REST, I2C_SDA, I2C_SCL)
PULL_DOWN = (LAMP_GATE, LAMP_PUMP, WHITE, BUZZER)
