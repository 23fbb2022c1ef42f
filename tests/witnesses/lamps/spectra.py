"""What paper, an eye and sensors see of a black body: Planck's law through a sensitivity, nm by nm."""

import numpy as np

NOMINAL_K = 2856.0  # CIE standard illuminant A
_SECOND_RADIATION_CONSTANT_NM_K = 1.438777e7  # CODATA 2018
NM = np.arange(340.0, 1200.5, 1.0)


def planck(kelvin: np.ndarray | float) -> np.ndarray:
    """Spectral radiance at each wavelength, in any unit; a row a temperature."""
    exponent = _SECOND_RADIATION_CONSTANT_NM_K / (NM * np.asarray(kelvin, float)[..., None])
    return 1 / (NM**5 * np.expm1(exponent))


def _below(edge_nm: float, width_nm: float) -> np.ndarray:
    return 1 / (1 + np.exp((NM - edge_nm) / width_nm))


def _bell(centre_nm: float, deviation_nm: float) -> np.ndarray:
    return np.exp(-0.5 * ((NM - centre_nm) / deviation_nm) ** 2)


# Silicon's current per watt rises with the wavelength and falls where light goes through it; from memory.
_SILICON = np.clip((NM - 320) / 630, 0, 1) * _below(1030, 25)
SENSITIVITIES = {
    # Blue-sensitive paper behind glass: from 385 nm on, gone above 485; from memory, no source.
    "paper": _below(485, 9) * (1 - _below(385, 6)),
    # V of the eye as one bell; from memory, held against colour-science in the test.
    "eye": _bell(559, 42),
    "silicon": _SILICON,
    # Behind blue glass and an infrared cut, as hardware/parts.toml wants it (peak near 440 nm).
    "blue": _SILICON * _bell(440, 45) * _below(680, 15),
}


def level(response: str, temperature: np.ndarray | float) -> np.ndarray:
    """Of a filament at this temperature over the nominal one, over what it is there."""
    weights = SENSITIVITIES[response]
    return planck(NOMINAL_K * np.asarray(temperature, float)) @ weights / (planck(NOMINAL_K) @ weights)


def mains_exponent(response: str) -> float:
    """With which power of the mains it rises, about the nominal mains; temperature by the power 2 / 5.2."""
    low, high = level(response, np.array([0.99, 1.01]) ** (2 / 5.2))
    return float(np.log(high / low) / np.log(1.01 / 0.99))
