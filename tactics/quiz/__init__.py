"""The quiz: situations drawn from a rule set, the schedule, and what is kept of the answers."""
