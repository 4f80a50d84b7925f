"""Is it sound: one rule a module (``rules/``), a runner, and reports."""
