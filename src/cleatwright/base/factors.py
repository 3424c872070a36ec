"""Factors between the units of masses and volumes."""

from __future__ import annotations

G_PER_KG = 1000.0
MM3_PER_M3 = 1e9
