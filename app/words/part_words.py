"""The figures of parts in the words of forms: a label, a unit, a line of help each.

One table holds what a field is called wherever it stands; a second one what is said
otherwise of one class of parts.
"""

from typing import NamedTuple

from core.gear.parts import Camera, Corrector, Mount, Part, Telescope
from core.record.validation import unit_of

__all__ = [
    "FIELDS",
    "KIND_WORDS",
    "SPECIAL",
    "FieldWords",
    "field_words",
    "key_figures",
    "kind_words",
]


class FieldWords(NamedTuple):
    """What a form says about a field."""

    label: str
    help: str
    unit: str = ""


_FACES_SKY = FieldWords("Thread to the sky", 'Thread that meets the part before it: "M48x0.75"')
#: What a field is called, whatever part it belongs to.
FIELDS: dict[str, FieldWords] = {
    "name": FieldWords("Name", "What the part is called"),
    "kind": FieldWords("Kind", "What the part is"),
    "aperture_mm": FieldWords("Aperture", "Free diameter of the front lens or the mirror"),
    "focal_length_mm": FieldWords("Focal length", "Without a corrector"),
    "obstruction_mm": FieldWords("Obstruction", "Diameter in the middle of the aperture; 0: none"),
    "image_circle_mm": FieldWords("Image circle", "Diameter of the field that is sharp and lit"),
    "back_focus_mm": FieldWords("Back focus", "From its last surface to the sensor, as asked for"),
    "back_focus_fixed": FieldWords(
        "Back focus fixed", "No: the focuser sets the distance to the sensor instead"
    ),
    "factor": FieldWords("Factor", "What the focal length is multiplied by: 0.8 for a reducer"),
    "thread_front": _FACES_SKY,
    "thread": FieldWords("Thread to the sensor", 'Thread that meets the next part: "M42x0.75"'),
    "length_mm": FieldWords("Length", "What it adds to the way of the light"),
    "clear_diameter_mm": FieldWords("Clear diameter", "Free diameter of its bore"),
    "columns": FieldWords("Columns", "Pixels along the long side of the sensor", "px"),
    "rows": FieldWords("Rows", "Pixels along the short side of the sensor", "px"),
    "pixel_um": FieldWords("Pixel pitch", "From the middle of a pixel to that of its neighbour"),
    "sensor": FieldWords("Sees", "Colour: a mosaic of filters lies on its pixels"),
    "flange_mm": FieldWords("Flange to sensor", "From the front of the camera to the sensor"),
    "cover_glass_mm": FieldWords(
        "Cover glass", "Glass before the sensor that the flange figure leaves out; 0: none"
    ),
    "cover_index": FieldWords("Index of that glass", "Refractive index; common glass has 1.52"),
    "read_noise_e": FieldWords("Read noise", "At the gain that you use; say which in the note"),
    "full_well_e": FieldWords("Full well", "At the gain that you use; say which in the note"),
    "peak_qe": FieldWords("Peak efficiency", "Best share of the light that it counts, 0 to 1"),
    "cooled": FieldWords("Cooled", "Whether the sensor is cooled"),
    "load_bare_kg": FieldWords("Load, no counterweight", "What it is rated for without one"),
    "load_balanced_kg": FieldWords(
        "Load, counterweight", "What it is rated for with one, which is not counted"
    ),
    "rated_torque_n_m": FieldWords("Rated pull", "About its first axis, without counterweight"),
    "axis_to_saddle_mm": FieldWords("Axis to saddle", "From its first axis to the clamp"),
    "glass_mm": FieldWords("Glass of a filter", "Thickness of one filter's glass"),
    "glass_index": FieldWords("Index of the glass", "Refractive index; common glass has 1.52"),
    "band_nm": FieldWords("Narrowest band", "Width of the band of colour that passes"),
    "centre_nm": FieldWords("Middle of the band", "Wavelength in the middle of that band"),
    "prism_mm": FieldWords("Prism", "Side of the prism"),
    "prism_radius_mm": FieldWords("Axis to prism", "From the axis to the middle of the prism"),
    "prism_angle_deg": FieldWords(
        "Angle of the prism", "From the camera's up, counter-clockwise as seen from the sensor"
    ),
    "rated_load_kg": FieldWords("Rated load", "What it is rated to carry, the mount included"),
    "mass_kg": FieldWords("Mass", "The part by itself, as it is used"),
    "price": FieldWords("Price", "In the currency of the plan"),
    "on_mount": FieldWords("On the mount", "No: its owner carries it, the mount does not"),
    "alternatives": FieldWords(
        "Alternatives", "Names of parts that may take its place, a semicolon between two"
    ),
    "link": FieldWords("Data sheet", "Address of its page, beginning with https://"),
    "note": FieldWords("Note", "Words of your own"),
}
#: What is said otherwise of the parts of one class.
SPECIAL: dict[tuple[str, str], FieldWords] = {
    ("Telescope", "thread"): FieldWords(
        "Thread at the back", 'Thread or bayonet at the camera\'s side: "M48x0.75"'
    ),
    ("Telescope", "length_mm"): FieldWords("Length over all", "With the focuser drawn in"),
    ("Corrector", "back_focus_mm"): FieldWords(
        "Back focus", "From its thread to the sensor, as the maker asks for"
    ),
    ("Camera", "thread"): FieldWords("Thread at the front", 'Thread or bayonet: "M42x0.75"'),
    ("GuideScope", "aperture_mm"): FieldWords("Aperture", "Free diameter of its lens"),
    ("GuideScope", "focal_length_mm"): FieldWords("Focal length", "Of the guide scope"),
}
#: Kinds whose words are not simply their name.
KIND_WORDS = {
    "guiding": "guiding, all in one",
    "focusing": "focuser motor",
    "power": "power",
    "other": "something else",
}
_UNITS = {"electrons": "e", "degrees": "°"}


def field_words(part_class: type[Part], field: str) -> FieldWords:
    """Give label, help and unit of a field.

    Parameters
    ----------
    part_class : type of Part
    field : str

    Examples
    --------
    >>> from core.gear.parts import Camera
    >>> field_words(Camera, "pixel_um").unit, field_words(Camera, "thread").label
    ('µm', 'Thread at the front')
    """
    words = SPECIAL.get((part_class.__name__, field), FIELDS[field])
    unit = words.unit or unit_of(field)
    return words._replace(unit=_UNITS.get(unit, unit))


def kind_words(kind: str) -> str:
    """Call a kind of part as a list does."""
    return KIND_WORDS.get(kind, kind)


def key_figures(part: Part) -> str:
    """Give the few figures by which one part of a kind is told from another.

    Examples
    --------
    >>> from core.gear.parts import Telescope
    >>> key_figures(Telescope(name="x", aperture_mm=80, focal_length_mm=480, mass_kg=3.2))
    '80/480 f/6, 3.2 kg'
    """
    said = [*_own_figures(part)]
    if part.mass_kg is not None:
        said.append(f"{part.mass_kg:g} kg")
    return ", ".join(said)


def _own_figures(part: Part) -> list[str]:
    """Give the figures that matter most of each class."""
    if isinstance(part, Telescope):
        ratio = f"{part.focal_length_mm / part.aperture_mm:.2g}"
        return [f"{part.aperture_mm:g}/{part.focal_length_mm:g} f/{ratio}"]
    if isinstance(part, Camera):
        return [f"{part.columns} × {part.rows}", f"{part.pixel_um:g} µm"]
    if isinstance(part, Corrector):
        return [f"{part.factor:g}×"]
    if isinstance(part, Mount):
        loads = ((part.load_bare_kg, "bare"), (part.load_balanced_kg, "balanced"))
        return [f"carries {load:g} kg {how}" for load, how in loads if load is not None]
    length = getattr(part, "length_mm", None)
    return [f"{length:g} mm"] if length else []
