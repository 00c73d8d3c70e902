"""The window: places, widgets, models, and the session that holds the edited value."""
