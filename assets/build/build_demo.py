"""Builds the demo plan from the shelf and the target table.

Run by hand from the top of the checkout: ``python -m assets.build.build_demo``. It writes
``assets/demo/plan.json``; the scenario is told in ``assets/demo/demo.md``.
"""

from dataclasses import dataclass

from core.catalogue.targets import TargetTable
from core.gear.rig import Rig
from core.gear.shelf.shelf import Shelf
from core.paths import ASSETS
from core.plan.document import Framing, Plan, SheetView, planned_target
from core.plan.edits import with_current_rig, with_framing, with_rig, with_target
from core.plan.store import save_plan


@dataclass(frozen=True)
class Kit:
    """A rig by the names of its parts on the shelf."""

    name: str
    telescope: str
    camera: str
    mount: str
    corrector: str | None = None
    others: tuple[str, ...] = ()
    counterweight: bool | None = None

    def rig(self, shelf: Shelf) -> Rig:
        """Take the parts from the shelf."""
        return Rig(
            name=self.name,
            telescope=shelf.telescope(self.telescope),
            camera=shelf.camera(self.camera),
            corrector=shelf.corrector(self.corrector) if self.corrector else None,
            mount=shelf.mount(self.mount),
            others=tuple(shelf.other(name) for name in self.others),
            counterweight=self.counterweight,
        )


GUIDE = ("guide scope 30/120", "guide camera 2 MP 2.9 µm")
BATTERY, TRIPOD = "battery 500 Wh", "tripod, steel"
SHORT, LONG = "adapter M48 to M42, 18.5 mm", "adapter M48 to M42, 38 mm"

KITS = (
    Kit(
        name="Wide loan kit",
        telescope="lens 85 f/2.8",
        camera="APS-C 24 MP 3.92 µm, camera body",
        mount="tracker 3 kg",
        others=("tripod, light",),
    ),
    Kit(
        name="Rucksack kit",
        telescope="flat-field refractor 50/240",
        camera="APS-C 26 MP 3.76 µm, colour",
        mount="tracker with declination drive 5 kg",
        others=(LONG, *GUIDE, "tripod, light", BATTERY),
        counterweight=True,
    ),
    Kit(
        name="First steps set",
        telescope="refractor 60/360",
        corrector="flattener 1.0x, small",
        camera="1/1.2 type 8 MP 2.9 µm, colour",
        mount="equatorial 10 kg",
        others=(LONG, *GUIDE, TRIPOD),
    ),
    Kit(
        name="Evening rig",
        telescope="refractor 80/480",
        corrector="reducer 0.8x, small",
        camera="APS-C 26 MP 3.76 µm, mono",
        mount="equatorial 15 kg",
        others=(SHORT, "filter wheel, seven filters", *GUIDE, "focuser motor", TRIPOD, BATTERY),
    ),
    Kit(
        name="Nebula bench",
        telescope="flat-field refractor 90/500",
        camera="full frame 61 MP 3.76 µm, mono",
        mount="strain wave 9 kg, 14 kg balanced",
        others=(
            "spacer M54, 18 mm",
            "filter wheel, seven large filters",
            *GUIDE,
            "focuser motor",
            TRIPOD,
            BATTERY,
        ),
        counterweight=False,
    ),
    Kit(
        name="Fast mirror",
        telescope="Newtonian 200/800",
        corrector="coma corrector 1.0x",
        camera="four thirds 16 MP 3.8 µm, mono",
        mount="equatorial 25 kg",
        others=(SHORT, "filter drawer with one band filter", *GUIDE, "focuser motor", BATTERY),
    ),
    Kit(
        name="Galaxy bench",
        telescope="Cassegrain 200/1600",
        camera="one-inch square 9 MP 3.76 µm, colour",
        mount="equatorial 25 kg",
        others=(
            "adapter M68 to M48, 10 mm",
            "off-axis guider M48 to M42",
            GUIDE[1],
            "focuser motor",
            BATTERY,
        ),
    ),
)

TARGETS = ("NGC 7000", "Scene Veil", "M 13", "M 51", "M 57", "M 31")

NOTES = {
    "M 31": "The first evening: everybody tries it with what is at hand.",
    "NGC 7000": "Centred a little to the west, so that the Pelican comes along.",
    "Scene Veil": "Only the wide kits hold all of it.",
}

#: Framings of the circle's own: target, rig, RA, Dec, PA of the camera's up (degrees).
FRAMINGS = (
    ("NGC 7000", "Evening rig", 314.05, 44.30, 0.0),
    ("NGC 7000", "Rucksack kit", 314.05, 44.36, 0.0),
    ("Scene Veil", "Nebula bench", 313.95, 31.40, 158.0),
    ("M 51", "Galaxy bench", 202.47, 47.23, 20.0),
)


def build(shelf: Shelf, table: TargetTable) -> Plan:
    """Put the plan together."""
    plan = Plan(title="The loan shelf: autumn evenings", currency=shelf.currency)
    for name in TARGETS:
        plan = with_target(plan, planned_target(table.find(name), note=NOTES.get(name, "")))
    for kit in KITS:
        plan = with_rig(plan, kit.rig(shelf))
    plan = with_current_rig(plan, "Evening rig")
    for target, rig, ra_deg, dec_deg, pa_deg in FRAMINGS:
        framing = Framing(target=target, rig=rig, ra_deg=ra_deg, dec_deg=dec_deg, pa_deg=pa_deg)
        plan = with_framing(plan, framing)
    current = plan.target("M 31")
    view = SheetView(ra_deg=current.ra_deg, dec_deg=current.dec_deg, width_deg=7.5)
    return plan.but(view=view)


def main() -> None:
    """Build and save."""
    path = ASSETS / "demo" / "plan.json"
    save_plan(build(Shelf.load(), TargetTable.load()), path)
    print(f"{path.name}: {path.stat().st_size} bytes")


if __name__ == "__main__":
    main()
