"""Kit that stands beside the body: bars above it, bands, machines, and what hands and knees hold."""
