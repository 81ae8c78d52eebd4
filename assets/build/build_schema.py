"""Writes the JSON Schemas (2020-12) of a shelf file and of a rig file.

Run from the top of the checkout: ``python -m assets.build.build_schema``. Bounds come from
the records that read the files, descriptions from the line below each field, units from
the ends of the fields' names. A test says when the files are not up to date.
"""

import ast
import inspect
import json
from pathlib import Path
from typing import Any

from core.gear.accessories import (
    FilterPart,
    GuideCamera,
    GuideScope,
    OffAxisGuider,
    Spacer,
    Tripod,
)
from core.gear.currency import CODES
from core.gear.parts import Camera, Corrector, Mount, OtherPart, Telescope
from core.gear.rig import Rig
from core.gear.shelf.files import RigFile
from core.gear.shelf.shelf import Shelf, ShelfRig
from core.paths import ASSETS
from core.record.validation import Record, unit_of

__all__ = ["FILES", "schema_of", "written"]

#: What is written where, from which record.
FILES: dict[str, type[Record]] = {"shelf.schema.json": Shelf, "rig.schema.json": RigFile}
_NAMES = {Shelf: "shelf", RigFile: "rig"}
_INNER: tuple[type[Record], ...] = (
    Telescope, Corrector, Camera, Mount, OtherPart, FilterPart, Spacer, OffAxisGuider,
    GuideScope, GuideCamera, Tripod, Rig, ShelfRig,
)  # fmt: skip
#: Parts that are told apart by their kind, which a file must therefore give.
_BY_KIND = ("FilterPart", "Spacer", "OffAxisGuider", "GuideScope", "GuideCamera", "Tripod")
#: In the place of the pattern of a name: something to read must be in it.
_PLAIN, _TO_READ = r"^[^\x00-\x1f\x7f]*$", r"^[^\x00-\x1f\x7f]*[^\x00-\x20\x7f][^\x00-\x1f\x7f]*$"
_NOT_SAID = (
    "Beyond what a schema can say: a name is there once in its list; a rig of a shelf names "
    "parts that are on it; an obstruction is smaller than the aperture; focal length over "
    "aperture, with and without corrector, lies between 0.5 and 1000; a whole number is "
    "written without a point; a file has at most 16 MB. What is not known is left out or "
    "null. Every figure's unit is at the end of its name and in x-unit."
)
Json = dict[str, Any]


def schema_of(model: type[Record]) -> Json:
    """Describe the files that a record reads.

    Parameters
    ----------
    model : type of Record
        One of those in `FILES`.

    Raises
    ------
    KeyError
        When a field has no line that describes it.
    """
    schema = model.model_json_schema()
    defs = schema.pop("$defs")
    for inner in _INNER:
        if inner.__name__ in defs:
            _describe(defs[inner.__name__], inner)
    _describe(schema, model)
    _tell_kinds_apart(defs)
    name = _NAMES[model]
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:skysill:schema:{name}:1",
        "title": f"Skysill {name}",
        "$comment": _NOT_SAID,
        **schema,
        "required": ["format", "version", *schema["required"]],
        "$defs": defs,
    }


def written(model: type[Record]) -> str:
    """Give the text of a schema's file."""
    return json.dumps(schema_of(model), indent=1, ensure_ascii=False) + "\n"


def _describe(schema: Json, model: type[Record]) -> None:
    """Put words, unit and what only we know about a field into a record's schema."""
    lines = _lines_of(model)
    schema.pop("title", None)
    schema["description"] = " ".join(str(inspect.getdoc(model)).split())
    for field, about in schema["properties"].items():
        about.pop("title", None)
        unit = unit_of(field)
        about["description"] = lines[field] + (f" Unit: {unit}." if unit else "")
        if unit:
            about["x-unit"] = unit
        if field == "currency":
            about["enum"] = sorted(CODES)
        _let_names_be_read(about)


def _let_names_be_read(about: Json) -> None:
    """Let no name be of blanks alone."""
    for inner in (about, about.get("items", {}), *about.get("anyOf", [])):
        if inner.get("pattern") == _PLAIN:
            inner["pattern"] = _TO_READ


def _tell_kinds_apart(defs: Json) -> None:
    """Let exactly one of the other parts' schemas fit a kind."""
    taken: set[str] = set()
    for name in _BY_KIND:
        kind = defs[name]["properties"]["kind"]
        kind.pop("default", None)
        taken |= set(kind.get("enum", [kind.get("const")]))
        defs[name]["required"] = ["kind", *defs[name]["required"]]
    rest = defs["OtherPart"]["properties"]["kind"]
    rest["enum"] = [kind for kind in rest["enum"] if kind not in taken]


def _lines_of(model: type[Record]) -> dict[str, str]:
    """Read the line below each field, of the record and of those it stands on."""
    lines: dict[str, str] = {}
    for base in reversed(model.__mro__):
        if issubclass(base, Record) and base is not Record:
            body = ast.parse(inspect.getsource(base)).body[0]
            assert isinstance(body, ast.ClassDef)
            lines |= _lines_in(body)
    return lines


def _lines_in(body: ast.ClassDef) -> dict[str, str]:
    """Read the texts that stand right below a field."""
    found: dict[str, str] = {}
    for field, below in zip(body.body, body.body[1:], strict=False):
        if not isinstance(field, ast.AnnAssign) or not isinstance(field.target, ast.Name):
            continue
        if isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant):
            found[field.target.id] = str(below.value.value)
    return found


def main(folder: Path = ASSETS / "shelf") -> None:
    """Write every schema."""
    for name, model in FILES.items():
        (folder / name).write_text(written(model), encoding="utf-8")
        print(name)


if __name__ == "__main__":
    main()
