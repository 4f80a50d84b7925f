"""The handout: what a coach writes for one client, and the limits of the link that carries it. Nothing of it is ever stored."""
