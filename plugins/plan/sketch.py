"""Stories that are still being drawn, and say how far."""

from __future__ import annotations

from collections.abc import Iterator

from precheck import Fact, House, Story, fact


@fact
class StoryInWork(Fact):
    """A story that says what of it is drawn, where that is not all."""

    story: Story

    @classmethod
    def found_in(cls, house: House) -> Iterator[StoryInWork]:
        """Yield the stories of which something is not drawn yet."""
        for story in house.subjects(Story):
            if story.not_drawn and not story.is_removed:
                yield cls(story, story)

    @property
    def phase(self) -> str:
        """``new``: what is not drawn yet has to be, whatever the phase of the story."""
        return "new"
