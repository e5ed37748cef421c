"""What the engineering raises for a member that it does not cover."""


class OutsideMethodError(ValueError):
    """The member lies outside what this method covers, so that an engineer decides; the message says why."""
