"""The writer's bench: starting a pattern, explaining a problem, tracing a number, resizing."""
