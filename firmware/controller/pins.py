"""Pins and their polarity. Made from hardware/pins.toml: do not edit."""

LAMP_GATE = 2  # lamp driver, high leg: high joins the coil to +5 V
LAMP_PUMP = 3  # lamp driver, low leg: a 100 kHz square wave joins the coil to ground
WHITE = 6  # white-light contact: high allows the dedicated white lamp
WHITE_READ = 8  # white-light read-back: high while the contact's coil is not pulled down
PEDAL_MAKE = 10  # pedal make contact: low while pressed
PEDAL_REST = 12  # pedal rest contact, jump pin of the lamp: low at rest, high ends the light
BUZZER = 15  # buzzer, by pulse-width modulation
SPI_CS = 17  # display: load (chip select, low while a frame is sent)
SPI_SCK = 18  # display: clock (SPI0)
SPI_MOSI = 19  # display: data (SPI0)
I2C_SDA = 20  # kept free for a probe (I2C0 data)
I2C_SCL = 21  # kept free for a probe (I2C0 clock)
LED = 25  # green LED on the board itself: kept dark, or covered
SENSE = 26  # light at the lamp house (ADC0), optional: rises while the lamp is lit
COIL_HIGH = 27  # read-back of the coil's high leg (ADC1): half its voltage
COIL_LOW = 28  # read-back of the coil's low leg (ADC2): half its voltage

# Level of a pedal line while its contact is closed; open, or broken, reads the other level.
PEDAL_CLOSED = 0
# Driven low before anything else.
SAFE_LOW = (LAMP_GATE, LAMP_PUMP, WHITE, BUZZER)
# The chip's own weak resistors, besides those on the board.
PULL_UP = (PEDAL_MAKE, PEDAL_REST, I2C_SDA, I2C_SCL)
PULL_DOWN = (LAMP_GATE, LAMP_PUMP, WHITE, BUZZER)
