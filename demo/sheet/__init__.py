"""A sheet that proofs an order column against the running service: flat ODS and XLSX from one description."""
