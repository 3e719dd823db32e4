"""Every kind of mistake that a quiz file can hold beside those all files share."""

from enum import StrEnum


class QuizCode(StrEnum):
    """Codes of problems in quiz files; each has its page."""

    # as it is written
    DUPLICATE_SCENARIO = "duplicate-scenario"
    THREE_OPTIONS = "three-options"
    OPTIONS_ALIKE = "options-alike"
    OPTIONS_DIFFER = "options-differ"
    ANSWER_NOT_OFFERED = "answer-not-offered"
    HOW_MANY = "how-many"
    # against the rules
    UNKNOWN_TOPIC = "unknown-topic"
    UNKNOWN_NAME = "unknown-name"
    OUTSIDE_THE_RULES = "outside-the-rules"
    CANNOT_HAPPEN = "cannot-happen-here"
    SILENT_RULE = "silent-rule"
    OTHER_ANSWER = "other-answer"
    NO_SOUND_OPTION = "no-sound-option"
    SEVERAL_RIGHT = "several-right"
    OPEN_ANSWER = "open-answer"
    NOTHING_TO_ASK = "nothing-to-ask"
