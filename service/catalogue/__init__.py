"""Catalogues of any length: read and judged as a batch is, by partition, on several processes or machines.

    source.py   a CSV or Parquet file, and the partitions it is read by
    parts.py    one partition judged and written to a file of its own
    plan.py     what a run is to do and what of it is done, kept beside the parts so that a stopped run goes on
    engine.py   where partitions are worked: in this process, or on Dask
    run.py      all of it, in order

What does not belong here: requests, the store, and any judgement.
"""
