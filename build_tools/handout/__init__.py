"""The handout: what a coach writes for one client, and the link that carries it. Nothing of it is ever stored."""
