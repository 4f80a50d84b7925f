"""What resists a movement, and the moment it asks of each joint over the repetition."""
