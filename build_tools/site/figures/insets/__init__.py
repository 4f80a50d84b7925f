"""Small drawings beside a figure: how hands hold and feet stand, and what hardly moves, enlarged."""
