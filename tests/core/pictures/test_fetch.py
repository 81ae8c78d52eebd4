"""Cutouts from a server on this machine that speaks the service's protocol."""

import itertools
import json
import threading

import numpy as np
import pytest

from core.errors import BadValueError, Cancelled, PictureError
from core.pictures.cache import PictureCache
from core.pictures.fetch import OFFICIAL, Servers, fetch_cutout
from core.pictures.picture import PictureFrame
from core.pictures.surveys import SURVEYS, survey_of
from core.pictures.transfer import Limits
from core.sky.tangent_plane import TangentPlane
from tests.core.pictures.cutout_server import SPOT_DEG, encoded, serving, sky_pattern

QUICK = Limits(most_bytes=300_000, connect_s=2.0, silence_s=5.0, total_s=10.0)
DSS = SURVEYS[0]


def frame_of(width_px=90, height_px=60, **more):
    return PictureFrame.of_width(TangentPlane(10.7, 41.3), 1.5, (width_px, height_px), **more)


def centroid(weight):
    weight = weight.astype(float) - np.median(weight)
    weight[weight < 0.3 * weight.max()] = 0.0
    rows, columns = np.mgrid[: weight.shape[0], : weight.shape[1]]
    return (weight * columns).sum() / weight.sum(), (weight * rows).sum() / weight.sum()


def test_pattern_itself_grows_red_to_the_east_and_green_to_the_north():
    """The fixture first: north up and east left, by the header's own words."""
    pixels = sky_pattern(frame_of().wcs_header()).astype(int)
    assert pixels[30, 0, 0] > pixels[30, 89, 0] + 100
    assert pixels[0, 45, 1] > pixels[59, 45, 1] + 60


@pytest.mark.parametrize("up_pa_deg", [0.0, 35.0, 123.0, 260.0])
@pytest.mark.parametrize("mirrored", [False, True])
def test_cutout_shows_the_sky_where_the_frame_says(up_pa_deg, mirrored):
    frame = frame_of(120, 120, up_pa_deg=up_pa_deg, mirrored=mirrored)
    with serving() as (address, _):
        picture = fetch_cutout(DSS, frame, servers=Servers((address,), QUICK))
    place = frame.plane.forward(*np.radians(SPOT_DEG))
    assert centroid(picture.pixels[:, :, 2]) == pytest.approx(
        [float(part) for part in frame.to_pixels(*place)], abs=0.3
    )
    there = frame.to_pixels([0.005, -0.005], [0.0, 0.0])
    east, west = np.rint(there).astype(int).T
    assert int(picture.pixels[east[1], east[0], 0]) > int(picture.pixels[west[1], west[0], 0]) + 40
    assert picture.frame is frame
    assert picture.credit == DSS.credit
    assert picture.source == DSS.id


def test_question_holds_the_whole_frame_and_the_survey():
    frame = frame_of()
    with serving() as (address, server):
        fetch_cutout(DSS, frame, servers=Servers((address,), QUICK))
    question = server.questions[0]
    header = json.loads(question["wcs"])
    assert (header["NAXIS1"], header["NAXIS2"]) == (90, 60)
    assert (header["CTYPE1"], header["LONPOLE"]) == ("RA---TAN", 180.0)
    assert question["hips"] == "CDS/P/DSS2/color"
    assert question["format"] == "jpg"


def test_progress_rises_to_the_whole():
    told = []
    with serving() as (address, _):
        servers = Servers((address,), QUICK)
        fetch_cutout(DSS, frame_of(900, 600), servers=servers, progress=lambda *p: told.append(p))
    shares, counts = zip(*told, strict=True)
    assert len(told) > 1
    assert list(shares) == sorted(shares)
    assert shares[-1] == 1.0
    assert all(a < b for a, b in itertools.pairwise(counts))


def test_progress_without_an_announced_size_has_no_share():
    def manners(handler, question):
        handler.answer(encoded(np.zeros((60, 90, 3), np.uint8)), Content_Length=None)

    told = []
    with serving(manners) as (address, _):
        servers = Servers((address,), QUICK)
        fetch_cutout(DSS, frame_of(), servers=servers, progress=lambda *p: told.append(p))
    assert told[-1][0] is None
    assert told[-1][1] > 0


def test_second_server_is_asked_when_the_first_fails():
    def broken(handler, question):
        handler.answer(b"<html>oh</html>", 500, "text/html")

    with serving(broken) as (first, first_server), serving() as (second, _):
        picture = fetch_cutout(DSS, frame_of(), servers=Servers((first, second), QUICK))
    assert len(first_server.questions) == 1
    assert picture.pixels[:, :, 2].max() > 200


def test_failure_names_every_server_that_failed():
    def broken(handler, question):
        handler.answer(b"", 503)

    with serving(broken) as (address, _), pytest.raises(PictureError) as caught:
        fetch_cutout(DSS, frame_of(), servers=Servers((address, "http://far.invalid/x"), QUICK))
    assert "127.0.0.1 answered with HTTP status 503" in str(caught.value)
    assert "far.invalid is not reached by HTTPS" in str(caught.value)


def test_a_black_picture_is_told_to_hold_nothing():
    def manners(handler, question):
        handler.answer(encoded(np.zeros((60, 90, 3), np.uint8)))

    with serving(manners) as (address, _):
        picture = fetch_cutout(DSS, frame_of(), servers=Servers((address,), QUICK))
    assert picture.note.startswith("DSS2 colour shows nothing here")


def test_survey_that_cannot_see_the_place_is_not_even_asked():
    survey = survey_of("CDS/P/PanSTARRS/DR1/color-z-zg-g")
    south = PictureFrame.of_width(TangentPlane(80, -69), 1.0, (90, 60))
    with serving() as (address, server), pytest.raises(PictureError, match="north of declination"):
        fetch_cutout(survey, south, servers=Servers((address,), QUICK))
    assert server.questions == []


def test_cancel_is_heard_while_the_server_is_silent():
    def silent(handler, question):
        handler.server.release.wait(20)

    asked = threading.Event()

    def cancelled():
        return asked.is_set()

    with serving(silent) as (address, server):
        threading.Timer(0.2, asked.set).start()
        with pytest.raises(Cancelled):
            fetch_cutout(DSS, frame_of(), servers=Servers((address,), QUICK), cancelled=cancelled)
        assert len(server.questions) == 1


def test_cancel_is_heard_between_pieces_and_nothing_is_kept(tmp_path):
    def endless(handler, question):
        handler.answer(b"\xff\xd8\xff" + bytes(9000), Content_Length=200_000)
        handler.server.release.wait(20)

    cache = PictureCache(tmp_path)
    told = []
    with serving(endless) as (address, _), pytest.raises(Cancelled):
        fetch_cutout(
            DSS,
            frame_of(),
            servers=Servers((address,), QUICK),
            cache=cache,
            progress=lambda *p: told.append(p),
            cancelled=lambda: bool(told),
        )
    assert told
    assert cache.size_bytes() == 0


def test_picture_brought_once_is_there_without_a_network(tmp_path):
    cache = PictureCache(tmp_path)
    with serving() as (address, server):
        first = fetch_cutout(DSS, frame_of(), servers=Servers((address,), QUICK), cache=cache)
    second = fetch_cutout(DSS, frame_of(), servers=Servers((address,), QUICK), cache=cache)
    assert len(server.questions) == 1
    assert np.array_equal(first.pixels, second.pixels)
    assert second.credit == DSS.credit


def test_other_frame_or_survey_is_not_served_from_the_same_entry(tmp_path):
    cache = PictureCache(tmp_path)
    with serving() as (address, server):
        servers = Servers((address,), QUICK)
        for frame in (frame_of(), frame_of(mirrored=True), frame_of(up_pa_deg=1e-9)):
            fetch_cutout(DSS, frame, servers=servers, cache=cache)
        fetch_cutout(survey_of("CDS/P/DSS2/red"), frame_of(), servers=servers, cache=cache)
    assert len(server.questions) == 4


def test_picture_of_too_many_pixels_is_refused_before_asking():
    big = PictureFrame.of_width(TangentPlane(0, 0), 1.0, (5000, 4000))
    with pytest.raises(BadValueError, match="at most 16 million pixels"):
        fetch_cutout(DSS, big, servers=Servers((), QUICK))


def test_official_servers_are_those_of_astroquery():
    from astroquery.hips2fits import conf

    assert all(address.startswith("https://") for address in OFFICIAL.addresses)
    with conf.set_temp("server", OFFICIAL.addresses[1]):
        assert conf.server == OFFICIAL.addresses[1]
    assert conf.server == OFFICIAL.addresses[0]


def test_surveys_have_words_for_everything():
    ids = [survey.id for survey in SURVEYS]
    assert len(set(ids)) == len(ids)
    for survey in SURVEYS:
        words = (survey.name, survey.credit, survey.coverage)
        assert all(words), survey
    with pytest.raises(BadValueError, match="survey"):
        survey_of("CDS/P/NONE")


def test_transfer_that_was_given_up_ends_although_the_server_goes_on():
    def drips(handler, question):
        handler.answer(bytes(5000), Content_Length=290_000)
        while not handler.server.release.wait(0.02):
            handler.wfile.write(bytes(50))

    told = []
    before = set(threading.enumerate())
    with serving(drips) as (address, _):
        with pytest.raises(Cancelled):
            fetch_cutout(
                DSS,
                frame_of(),
                servers=Servers((address,), QUICK),
                progress=lambda *p: told.append(p),
                cancelled=lambda: bool(told),
            )
        new = set(threading.enumerate()) - before
        left = [thread for thread in new if thread.name == "picture transfer"]
        for thread in left:
            thread.join(5.0)
        assert not any(thread.is_alive() for thread in left)
