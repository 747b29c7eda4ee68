"""Run migrations on the connection the program hands over.

Foreign keys stay off while tables are rebuilt: with them on, rebuilding a parent table silently
empties the children that cascade from it. The check afterwards makes up for it.
"""

from __future__ import annotations

from alembic import context
from sqlalchemy import Connection

from coachdesk.storage import tables

connection: Connection = context.config.attributes["connection"]
context.configure(
    connection=connection,
    target_metadata=tables.METADATA,
    render_as_batch=True,
    transactional_ddl=True,
)
context.run_migrations()
