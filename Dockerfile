# Two stages: the first builds the wheel and installs it with its pinned requirements, the second holds only the result.
# One image serves both databases: what PostgreSQL needs is in it.
# The service runs as a user of its own, from an empty folder, so that nothing but the wheel can be what runs.
# Since it can be reached from outside, it starts only once there is a token in its store (a volume):
#     docker run --rm -v kitproof:/var/lib/kitproof IMAGE python -m service token create --owner NAME --scope write

FROM python:3.11.9-slim-bookworm AS build
WORKDIR /build
COPY requirements/run.txt requirements/postgres.txt requirements/build.txt requirements/
RUN python -m venv /opt/kitproof && \
    /opt/kitproof/bin/pip install --no-cache-dir --require-hashes -r requirements/run.txt -r requirements/postgres.txt
RUN python -m venv /opt/build && \
    /opt/build/bin/pip install --no-cache-dir --require-hashes -r requirements/build.txt
COPY pyproject.toml README.md ./
COPY reference reference
COPY schemas schemas
COPY service service
RUN /opt/build/bin/pip wheel --no-deps --no-build-isolation --wheel-dir /opt/dist . && \
    /opt/kitproof/bin/pip install --no-deps --no-index /opt/dist/kitproof_service-*.whl

FROM python:3.11.9-slim-bookworm
RUN useradd --system --uid 10001 --create-home --home-dir /var/lib/kitproof kitproof
COPY --from=build /opt/kitproof /opt/kitproof
ENV PATH=/opt/kitproof/bin:$PATH \
    KITPROOF_HOST=0.0.0.0 \
    KITPROOF_DATABASE_URL=sqlite:////var/lib/kitproof/kitproof.sqlite3 \
    PYTHONUNBUFFERED=1
USER kitproof
WORKDIR /srv/kitproof
VOLUME /var/lib/kitproof
EXPOSE 8383
HEALTHCHECK --interval=30s --timeout=3s --start-period=5s CMD ["/opt/kitproof/bin/python", "-c", "from os import environ; from urllib.request import urlopen; urlopen('http://127.0.0.1:' + environ.get('KITPROOF_PORT', '8383') + '/readyz', timeout=2)"]
CMD ["/opt/kitproof/bin/gunicorn", "--config", "python:service.serving"]
