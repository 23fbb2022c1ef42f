"""The parts that the app works with, built by `board` or by a test."""


class Parts:
    """Only names; what each must do is said where it is built."""

    def __init__(self, **parts):
        self.clock = parts["clock"]
        self.pedal = parts["pedal"]
        self.lamp = parts["lamp"]
        self.display = parts["display"]
        self.sound = parts["sound"]
        self.store = parts["store"]
        self.journal = parts["journal"]
        self.port = parts["port"]
        self.guard = parts["guard"]
        self.sense = parts["sense"]  # callable: does the lamp burn? False where no sensor is fitted
        self.white = parts["white"]  # callable: 1 permits white light
        self.keyboard = parts["keyboard"]  # callable: may Ctrl-C stop the program?
        self.identity = parts["identity"]  # text that is this controller's own
