"""What the terminal shows while somebody charts, rates or answers."""
