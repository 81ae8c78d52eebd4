"""The kernels that lay light on rasters: flux, place and shape are kept."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.pictures.light import Patches, deposit, grow
from core.pictures.pyramid import Ellipses, Pyramid, eigenvalues


def bell(sigma_px):
    def profile(rows, dx, dy):
        return np.exp((dx * dx + dy * dy) * np.float32(-0.5 / sigma_px**2))

    return profile


def moments(plane):
    rows, columns = np.mgrid[: plane.shape[0], : plane.shape[1]]
    total = plane.sum()
    x, y = (plane * columns).sum() / total, (plane * rows).sum() / total
    dx, dy = columns - x, rows - y
    spread = [[(plane * a * b).sum() / total for b in (dx, dy)] for a in (dx, dy)]
    return float(total), (float(x), float(y)), np.array(spread)


@given(st.floats(30, 68), st.floats(30, 50), st.floats(3, 20), st.floats(0.1, 1e6))
@settings(max_examples=40)
def test_patch_holds_its_flux_at_its_place(column, row, radius, flux):
    raster = np.zeros((2, 80, 100), np.float32)
    patch = Patches(*(np.array([v]) for v in (column, row, radius)), np.array([[flux, 0.0]]))
    deposit(raster, patch, bell(radius / 4.8))
    total, place, _ = moments(raster[0].astype(float))
    assert total == pytest.approx(flux, rel=1e-5)
    assert place == pytest.approx((column, row), abs=0.02)
    assert raster[1].max() == 0.0


def test_patch_at_the_edge_loses_only_what_falls_outside():
    raster = np.zeros((1, 40, 40), np.float32)
    one = np.array([1.0])
    deposit(raster, Patches(-0.5 * one, 20 * one, 8 * one, one[:, None]), bell(1.5))
    assert raster.sum() == pytest.approx(0.5, abs=1e-5)
    deposit(raster, Patches(200 * one, 20 * one, 8 * one, one[:, None]), bell(1.5))
    assert raster.sum() == pytest.approx(0.5, abs=1e-5)


def test_many_patches_add_up_over_every_block():
    count = 30_000
    rng = np.random.default_rng(3)
    raster = np.zeros((1, 60, 60), np.float32)
    inside = rng.uniform(15, 45, (2, count))
    deposit(raster, Patches(*inside, np.full(count, 4.0), np.ones((count, 1))), bell(1.0))
    assert raster.sum(dtype=float) == pytest.approx(count, rel=1e-4)


@pytest.mark.parametrize("factor", [1, 2, 4, 16])
def test_enlarging_keeps_flux_and_place(factor):
    coarse = np.zeros((1, 12, 14), np.float32)
    coarse[0, 5, 8] = 3.0
    fine = grow(coarse, factor)
    assert fine.shape == (1, 12 * factor, 14 * factor)
    total, place, _ = moments(fine[0].astype(float))
    middle = (factor - 1) / 2
    assert total == pytest.approx(3.0, rel=1e-6)
    assert place == pytest.approx((8 * factor + middle, 5 * factor + middle), abs=1e-4)


def test_enlarging_keeps_a_level_plane_level_to_its_edges():
    assert np.ptp(grow(np.ones((1, 5, 6), np.float32), 4)) < 1e-7


@pytest.mark.parametrize("long_px", [1.5, 6.0, 24.0, 60.0])
@pytest.mark.parametrize("ratio", [1.0, 0.3])
def test_ellipse_of_any_size_keeps_flux_place_and_shape(long_px, ratio):
    angle = np.radians(30)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    spread = turn @ np.diag([long_px**2, (ratio * long_px) ** 2 + 1.0]) @ turn.T
    pyramid = Pyramid(1, 700, 800)
    one = np.array([1.0])
    middle = (401.3 * one, 349.6 * one)
    ellipses = Ellipses(*middle, spread[None], one[:, None], 5.0)
    pyramid.deposit(ellipses, lambda q: np.exp(-q / 2))
    total, place, found = moments(pyramid.light()[0].astype(float))
    assert total == pytest.approx(1.0, rel=1e-3)
    assert place == pytest.approx((401.3, 349.6), abs=0.05)
    shape = found / np.sqrt(np.linalg.det(found))
    assert shape == pytest.approx(spread / np.sqrt(np.linalg.det(spread)), rel=0.06, abs=0.06)


def test_eigenvalues_are_those_of_numpy():
    rng = np.random.default_rng(1)
    half = rng.normal(size=(50, 2, 2))
    spread = half @ half.transpose(0, 2, 1)
    assert np.stack(eigenvalues(spread), axis=-1) == pytest.approx(np.linalg.eigvalsh(spread))


def test_pyramid_without_light_is_none():
    assert Pyramid(2, 50, 60).light() is None


def test_ellipses_of_many_sizes_together_are_the_sum_of_each_alone():
    sizes = np.array([1.6, 9.0, 40.0, 140.0])
    places = np.array([[100.0, 60.0], [300.2, 90.7], [260.0, 310.0], [420.0, 200.0]])

    def drawn(rows):
        pyramid = Pyramid(1, 400, 600)
        spread = sizes[rows, None, None] ** 2 * np.eye(2)
        flux = np.ones((len(rows), 1))
        pyramid.deposit(Ellipses(*places[rows].T, spread, flux, 4.0), lambda q: np.exp(-q / 2))
        return pyramid.light()[0]

    alone = sum(drawn([row]) for row in range(4))
    assert np.abs(drawn([0, 1, 2, 3]) - alone).max() < 1e-4 * alone.max()
