"""The rules that rate certainty, one module for each of GRADE's domains, with their thresholds and sources."""
