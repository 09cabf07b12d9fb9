"""What is said while a price is made: how urgent each damage is, and the price of the materials."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Add the columns; rows that are there already hold the empty text."""
    op.add_column("cases", sa.Column("materials_price", sa.String, nullable=False, server_default=""))
    op.add_column("damages", sa.Column("urgency", sa.String, nullable=False, server_default=""))
