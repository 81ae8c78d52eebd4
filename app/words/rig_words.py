"""A rig's figures in the words of cards, rows and screen readers."""

from app.shared.angle_words import angle_words
from core.gear.rig import Rig

__all__ = [
    "area_words",
    "field_words",
    "load_words",
    "money_words",
    "number_words",
    "optics_words",
    "ratio_words",
    "scale_words",
    "spoken",
]

#: Signs of some currencies; others are shown by their three letters (ISO 4217).
_SIGNS = {"EUR": "€", "USD": "$", "GBP": "£", "JPY": "¥"}


def number_words(value: float, places: int) -> str:
    """Write a number without needless zeros.

    Examples
    --------
    >>> number_words(480.0, 0), number_words(6.0, 1), number_words(5.04, 1), number_words(5.96, 1)
    ('480', '6', '5', '6')
    """
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return text.replace("-", "−")


def ratio_words(rig: Rig) -> str:
    """Give the focal ratio: "f/6"."""
    return f"f/{number_words(rig.focal_ratio, 1)}"


def scale_words(rig: Rig) -> str:
    """Give the image scale: "1.62″/px"."""
    scale = rig.scale_arcsec_px
    return f"{scale:.1f}″/px" if scale >= 9.95 else f"{scale:.2f}″/px"


def optics_words(rig: Rig) -> str:
    """Give aperture, focal length and ratio: "80/480 f/6"."""
    aperture = number_words(rig.aperture_mm, 1 if rig.aperture_mm < 50.0 else 0)
    return f"{aperture}/{number_words(rig.focal_length_mm, 0)} {ratio_words(rig)}"


def field_words(rig: Rig) -> str:
    """Give width and height of the field in one unit, or in two when they differ much."""
    width, height = angle_words(rig.width_deg), angle_words(rig.height_deg)
    if width[-1] == height[-1]:
        return f"{_short(width[:-1])} × {_short(height)}"
    return f"{_short(width)} × {_short(height)}"


def area_words(solid_angle_deg2: float) -> str:
    """Give the field's solid angle: "5.23 square degrees", or minutes when it is small.

    Parameters
    ----------
    solid_angle_deg2 : float
        Square degrees.
    """
    if solid_angle_deg2 < 0.1:
        return f"{solid_angle_deg2 * 3600.0:.0f} square arcmin"
    return f"{solid_angle_deg2:.3g} square degrees"


def load_words(rig: Rig, currency: str) -> str:
    """Give mass and price; what is not known says so."""
    mass, price = rig.mass_kg, rig.price
    if mass is None and price is None:
        return "mass and price not known"
    heavy = "mass not known" if mass is None else f"{mass:.1f} kg"
    dear = "price not known" if price is None else money_words(price, currency)
    return f"{heavy} · {dear}"


def money_words(price: float, currency: str) -> str:
    """Write a price: "1 940 €" with a space that does not break."""
    figure = f"{price:,.0f}".replace(",", "\N{NO-BREAK SPACE}")
    return f"{figure}\N{NO-BREAK SPACE}{_SIGNS.get(currency, currency)}"


def spoken(words: str) -> str:
    """Write out the signs that a screen reader leaves out.

    Examples
    --------
    >>> spoken("2.80 × 1.87°"), spoken("1.62″/px")
    ('2.80 by 1.87 degrees', '1.62 arcseconds per pixel')
    """
    for sign, word in (
        ("″/px", " arcseconds per pixel"),
        ("″", " arcseconds"),
        ("′", " arcminutes"),
        ("°", " degrees"),
        ("×", "by"),
        ("−", "minus "),
        (" · ", ", "),
    ):
        words = words.replace(sign, word)
    return words


def _short(words: str) -> str:
    """Two decimals below 10, one above: "23.4" for "23.42"."""
    unit = words[-1] if not words[-1].isdigit() else ""
    value = float(words.removesuffix(unit))
    return f"{value:.1f}{unit}" if value >= 10.0 else words
