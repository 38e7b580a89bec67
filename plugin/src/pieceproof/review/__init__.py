"""The proofreader's desk: what changed, what was released, and what was promised of the facts."""
