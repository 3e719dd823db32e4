"""Numbers only: the court, the ball's flight and bounce, and what follows from them.

Frame of everything here: the hitter's own view, origin on the ground under the middle of the net,
x metres to the hitter's right, y metres along the court, z metres up. The hitter stands at
negative y (a court depth of 12.5 m is y = -12.5) and the opponent at positive y, so a ball on its
way to the opponent has a growing y. The opponent's own right is negative x.
"""
