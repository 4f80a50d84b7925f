"""What editors are told of entries: their form as JSON Schema, and the ids that a catalog has."""
