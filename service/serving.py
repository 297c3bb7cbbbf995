"""How gunicorn serves the application: ``gunicorn --config python:service.serving``.

The settings are those that measured best on two cores: one process per core, each with its own listening socket (on a
shared one a worker sometimes takes every kept-alive connection), the application loaded before the fork.
"""

import os
import shutil
import tempfile
from pathlib import Path
from typing import Any

from service.collector import settle, wait
from service.config import Settings

wait()

_settings = Settings.from_environment()
_shared_memory = Path("/dev/shm")  # noqa: S108 - gunicorn makes a file of its own there, with an unguessable name

# The counters of /metrics are shared by the workers in a folder of this server's own.
_counters = os.environ.setdefault("PROMETHEUS_MULTIPROC_DIR", tempfile.mkdtemp(prefix="kitproof-counters-"))

wsgi_app = "service.wsgi:app"
bind = f"{_settings.host}:{_settings.port}"
worker_class = "gthread"
workers = _settings.workers
threads = _settings.threads
reuse_port = True
keepalive = 5
preload_app = True
worker_tmp_dir = str(_shared_memory) if _shared_memory.is_dir() else None
control_socket_disable = True
# No header tells the server anything by itself, whoever sends it; what a proxy tells takes KITPROOF_PROXIES. So no
# address has to be looked up, which took the server a twentieth of its time.
forwarder_headers = ""
secure_scheme_headers: dict[str, str] = {}
forwarded_allow_ips = "*"
# A line of 500 characters can take nine bytes for each of them in an address.
limit_request_line = 8190
graceful_timeout = 30


def when_ready(server: Any) -> None:
    """Say where the service answers; the sockets are the workers' own, so gunicorn itself cannot.

    The application is loaded and the workers are not yet forked: what it holds is shared between them from here on.
    """
    settle()
    server.log.info("Kitproof answers at http://%s:%s/ (documentation at /docs)", _settings.host, _settings.port)


def post_worker_init(worker: Any) -> None:
    """Work on jobs beside requests."""
    queue = getattr(worker.wsgi, "extensions", {}).get("kitproof.jobs")
    if queue is not None and _settings.job_threads:
        queue.start(_settings.job_threads)


def child_exit(server: Any, worker: Any) -> None:
    """Keep what a worker counted when it ends."""
    from prometheus_client.multiprocess import mark_process_dead

    mark_process_dead(worker.pid)  # type: ignore[no-untyped-call]


def on_exit(server: Any) -> None:
    """Remove the folder of the counters."""
    shutil.rmtree(_counters, ignore_errors=True)
