"""A cutout service on this machine: speaks the real protocol, and misbehaves on request.

A well-mannered answer is computed from the WCS in the question, pixel by pixel through
WCSLIB, in a pattern without any symmetry: red grows to the east, green to the north, and
a blue spot lies at one place of the sky.
"""

import contextlib
import io
import json
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs, urlsplit

import numpy as np
from PIL import Image

SPOT_DEG = (10.9, 41.5)


def sky_pattern(header, spot_deg=SPOT_DEG):
    """Paint the pattern on the pixels of a FITS header; the first row is the top."""
    from astropy.wcs import WCS

    wcs = WCS(header)
    columns, rows = int(header["NAXIS1"]), int(header["NAXIS2"])
    x, y = np.meshgrid(np.arange(columns), np.arange(rows)[::-1])
    ra, dec = np.radians(wcs.wcs_pix2world(x.ravel(), y.ravel(), 0)).reshape(2, rows, columns)
    ra0, dec0 = np.radians([header["CRVAL1"], header["CRVAL2"]])
    east = np.cos(dec) * np.sin(ra - ra0)
    north = np.sin(dec) * np.cos(dec0) - np.cos(dec) * np.sin(dec0) * np.cos(ra - ra0)
    reach = max(np.abs(east).max(), np.abs(north).max())
    spot_ra, spot_dec = np.radians(spot_deg)
    apart = np.hypot((ra - spot_ra) * np.cos(spot_dec), dec - spot_dec)
    blue = 255 * np.exp(-0.5 * (apart / np.radians(0.04)) ** 2)
    red, green = (127 + 110 * part / reach for part in (east, north))
    return np.stack([red, green, blue], axis=-1).clip(0, 255).astype(np.uint8)


def encoded(pixels, form="JPEG"):
    """Write pixels as a file."""
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, form, **({"quality": 95} if form == "JPEG" else {}))
    return out.getvalue()


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def do_GET(self):
        parts = urlsplit(self.path)
        question = {name: values[0] for name, values in parse_qs(parts.query).items()}
        self.server.questions.append(question)
        with contextlib.suppress(BrokenPipeError, ConnectionError):
            self.server.manners(self, question)

    def answer(self, body, status=200, kind="image/jpeg", **headers):
        self.send_response(status)
        self.send_header("Content-Type", kind)
        for name, value in ({"Content_Length": len(body)} | headers).items():
            if value is not None:
                self.send_header(name.replace("_", "-"), str(value))
        self.send_header("Connection", "close")
        self.close_connection = True
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_):
        pass


class _Server(ThreadingHTTPServer):
    daemon_threads = True

    def handle_error(self, request, client_address):
        pass


def well_mannered(handler, question):
    header = json.loads(question["wcs"])
    handler.answer(encoded(sky_pattern(header)))


@contextlib.contextmanager
def serving(manners=well_mannered):
    """Serve in a thread; gives the address and the questions asked so far."""
    server = _Server(("127.0.0.1", 0), _Handler)
    server.manners, server.questions = manners, []
    server.release = threading.Event()
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_address[1]}/cutout", server
    finally:
        server.release.set()
        server.shutdown()
        thread.join()
        server.server_close()
