"""Pictures of the sky: drawn from catalogues or fetched from surveys."""
