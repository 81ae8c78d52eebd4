"""The ground: angles, the tangent plane, a footprint on the sphere."""
