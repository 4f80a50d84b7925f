"""How long a muscle is at given joint angles, by tables sampled from published models."""
