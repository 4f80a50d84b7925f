"""The catalog and its conclusions as data to take away: JSON, CSV and JSON-LD, with the page that documents them."""
