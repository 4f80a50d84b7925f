"""Questions, their answers, and what is concluded on every claim."""
