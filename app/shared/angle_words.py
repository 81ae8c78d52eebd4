"""An angle with the unit that suits its size."""

__all__ = ["angle_words"]


def angle_words(angle_deg: float) -> str:
    """Write an angle with the unit that suits its size.

    Examples
    --------
    >>> angle_words(1.063), angle_words(0.5), angle_words(0.004)
    ('1.06°', '30.0′', '14.4″')
    """
    if angle_deg >= 1.0:
        return f"{angle_deg:.2f}°"
    if angle_deg >= 1.0 / 60.0:
        return f"{angle_deg * 60.0:.1f}′"
    return f"{angle_deg * 3600.0:.1f}″"
