"""Everything a server can do wrong ends in one sentence, never in a wrong picture."""

import gzip
import io
import json
import socket
import struct
import zlib

import numpy as np
import pytest
from PIL import Image

from core.errors import PictureError
from core.pictures.fetch import Servers, fetch_cutout
from core.pictures.picture import PictureFrame
from core.pictures.surveys import SURVEYS
from core.pictures.transfer import Limits
from core.sky.tangent_plane import TangentPlane
from tests.core.pictures.cutout_server import encoded, serving

LIMITS = Limits(most_bytes=60_000, connect_s=1.0, silence_s=0.4, total_s=1.0)
FRAME = PictureFrame.of_width(TangentPlane(10.7, 41.3), 1.5, (90, 60))
NOISE = np.random.default_rng(4).integers(0, 255, (60, 90, 3), dtype=np.uint8)
GOOD = encoded(NOISE)


def brought(manners):
    with serving(manners) as (address, _):
        return fetch_cutout(SURVEYS[0], FRAME, servers=Servers((address,), LIMITS))


def png(width, height, depth=8, colour=2, rows=b""):
    """Write a PNG by hand, so that its header may lie."""

    def chunk(kind, data):
        whole = kind + data
        return struct.pack(">I", len(data)) + whole + struct.pack(">I", zlib.crc32(whole))

    header = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    parts = ((b"IHDR", header), (b"IDAT", zlib.compress(rows)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunk(kind, data) for kind, data in parts)


def jpeg_of_size(width, height):
    """Change the size in a JPEG's frame header (ITU T.81, B.2.2)."""
    at = GOOD.index(b"\xff\xc0") + 5
    return GOOD[:at] + struct.pack(">HH", height, width) + GOOD[at + 4 :]


def deep_grey():
    out = io.BytesIO()
    Image.fromarray(np.zeros((60, 90), np.uint16)).save(out, "PNG")
    return out.getvalue()


def says(body, **more):
    return lambda handler, question: handler.answer(body, **more)


def drips(handler, question):
    handler.answer(b"", Content_Length=500)
    while not handler.server.release.wait(0.05):
        handler.wfile.write(b"x")
        handler.wfile.flush()


def drips_header(handler, question):
    handler.wfile.write(b"HTTP/1.1 200 OK\r\nX-Slow: ")
    while not handler.server.release.wait(0.05):
        handler.wfile.write(b"x")
        handler.wfile.flush()


def silent(handler, question):
    handler.server.release.wait(10)


def floods(handler, question):
    handler.answer(b"\xff\xd8\xff", Content_Length=None)
    for _ in range(1000):
        handler.wfile.write(bytes(4096))


def refuses_for_ever(handler, question):
    handler.answer(b"<html>", 500, "text/html", Content_Length=None)
    while not handler.server.release.wait(0.001):
        handler.wfile.write(bytes(4096))


def resets(handler, question):
    linger = struct.pack("ii", 1, 0)
    handler.connection.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, linger)
    handler.close_connection = True


def chunks_end_early(handler, question):
    handler.answer(b"", Content_Length=None, Transfer_Encoding="chunked")
    handler.wfile.write(b"ff\r\n" + GOOD[:100])


def circles(handler, question):
    handler.answer(b"", 302, Location="/again")


def leads_away(handler, question):
    handler.answer(b"", 302, Location="http://elsewhere.invalid/cutout")


REFUSAL = json.dumps({"title": "Bad hips", "description": "no survey\n of that  name."}).encode()
PACKED = gzip.compress(GOOD)

FAULTS = {
    "html error": (says(b"<html>", status=500, kind="text/html"), "HTTP status 500"),
    "refusal": (
        says(REFUSAL, status=400, kind="application/json"),
        r"refused \(Bad hips: no survey of that name\)",
    ),
    "refusal without words": (says(b"[1, 2]", status=404, kind="application/json"), "status 404"),
    "refusal nested": (says(b"[" * 40000, status=400, kind="application/json"), "status 400"),
    "endless refusal": (refuses_for_ever, "HTTP status 500"),
    "no content": (says(b"", status=204), "HTTP status 204"),
    "html instead": (says(b"<html>", kind="text/html"), "sent text/html instead"),
    "json instead": (says(b"{}", kind="application/json"), "sent application/json instead"),
    "empty": (says(b""), "neither JPEG nor PNG"),
    "garbage": (says(b"\x00\x01garbage"), "neither JPEG nor PNG"),
    "gif": (says(encoded(NOISE, "GIF"), kind="image/gif"), "neither JPEG nor PNG"),
    "broken off": (says(GOOD[:900], Content_Length=len(GOOD)), "broke off before the end"),
    "cut": (says(GOOD[:900], Content_Length=None), "damaged JPEG"),
    "cut png": (says(encoded(NOISE, "PNG")[:900], Content_Length=None), "damaged PNG"),
    "chunks": (chunks_end_early, "broke off before the end"),
    "reset": (resets, "cannot be reached"),
    "turned size": (
        says(encoded(np.zeros((90, 60, 3), np.uint8))),
        "sent 60 x 90 pixels instead of 90 x 60",
    ),
    "16 bit": (says(deep_grey()), "unusual kind"),
    "announced too long": (says(b"x", Content_Length=10**10), "wants to send 9.54e"),
    "flood": (floods, "sent more than 0.0572 MB"),
    "bomb png": (says(png(60000, 60000)), "absurd size"),
    "large png": (says(png(9000, 9000)), "sent 9000 x 9000 pixels instead"),
    "bomb jpeg": (says(jpeg_of_size(65000, 65000)), "absurd size"),
    "large jpeg": (says(jpeg_of_size(9000, 9000)), "sent 9000 x 9000 pixels instead"),
    "png without rows": (says(png(90, 60)), "damaged PNG"),
    "packed": (says(PACKED, Content_Encoding="gzip"), "packed its answer"),
    "circles": (circles, "round in circles"),
    "leads away": (leads_away, "not reached by HTTPS"),
    "silent": (silent, "fell silent"),
    "drips": (drips, "was not done after 1 seconds"),
    "drips header": (drips_header, "was not done after 1 seconds"),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_fault_is_told_in_one_sentence(fault):
    manners, words = FAULTS[fault]
    with pytest.raises(PictureError, match=words) as caught:
        brought(manners)
    text = str(caught.value)
    assert text.startswith("DSS2 colour could not be brought: 127.0.0.1 ")
    assert text.endswith(".")
    assert "\n" not in text
    assert len(text) < 320


def test_absent_server_is_told():
    with socket.socket() as held:
        held.bind(("127.0.0.1", 0))
        address = f"http://127.0.0.1:{held.getsockname()[1]}/"
        with pytest.raises(PictureError, match="cannot be reached"):
            fetch_cutout(SURVEYS[0], FRAME, servers=Servers((address,), LIMITS))


@pytest.mark.parametrize("address", ["ftp://127.0.0.1/", "file:///etc/passwd", "http://10.0.0.1/"])
def test_only_https_is_asked_beyond_this_machine(address):
    with pytest.raises(PictureError, match="not reached by HTTPS"):
        fetch_cutout(SURVEYS[0], FRAME, servers=Servers((address,), LIMITS))


def test_a_picture_under_an_unhelpful_type_is_taken():
    picture = brought(says(encoded(NOISE, "PNG"), kind="application/octet-stream"))
    assert np.array_equal(picture.pixels, NOISE)


def test_redirect_on_the_same_machine_is_followed():
    def manners(handler, question):
        if "wcs" in question:
            handler.answer(b"", 302, Location="/moved")
        else:
            handler.answer(encoded(NOISE, "PNG"))

    assert np.array_equal(brought(manners).pixels, NOISE)


def test_transparent_png_is_black_where_it_is_clear():
    pixels = np.dstack([NOISE, np.full((60, 90), 255, np.uint8)])
    pixels[:30, :, 3] = 0
    picture = brought(says(encoded(pixels, "PNG")))
    assert picture.pixels[:30].max() == 0
    assert np.array_equal(picture.pixels[30:], NOISE[30:])
