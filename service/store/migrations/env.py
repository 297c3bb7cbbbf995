"""How alembic runs the steps: over the connection that it is given, within the transaction that is open there."""

from alembic import context

from service.store.model import Base

context.configure(connection=context.config.attributes["connection"], target_metadata=Base.metadata)
context.run_migrations()
