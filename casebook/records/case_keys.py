"""Every key of a case file with what it holds: the one list that reading checks against.

Lengths carry their unit, days are year-month-day, an amount of money is typed with or without a currency.
Keys not needed are left out; ``family`` alone is needed of a damage.
"""

from __future__ import annotations

CASE = {
    "number": "as written on the tag; given by the book when left out",
    "uid": "32 digits and letters a to f, the same in every book; added by export",
    "title": "one line",
    "taken_in": "the day it came in",
    "finished": "yes once the case is closed",
    "instrument": "mapping: kind, description, materials, marks, uid",
    "owner": "a reference, never an address",
    "owner_words": "the owner's own words, as they were said",
    "answers": "of the instrument as a whole: question id to answer",
    "damages": "list of damages",
    "comes_back_from": "number of the earlier case whose repair brings it here again",
    "pays": "owner, insurer, school, or seller (under guarantee)",
    "needed_by": "the day the owner needs it",
    "needed_for": "what for",
    "came_in_with": "case, mouthpiece, loose parts: what goes back with it",
    "loaned_out": "the instrument lent to the owner meanwhile",
    "loaned_since": "the day it was lent",
    "loaned_until": "the day it is to come back",
    "ready_on": "the day the work was done",
    "told_on": "the day the owner was told",
    "collected_on": "the day it was fetched",
    "paid": "the amount paid",
    "paid_how": "how it was paid",
    "paid_on": "the day of payment",
    "materials_price": "what parts and materials are reckoned at, before tax",
    "waits": "list of waits",
    "wood_readings": "list of dated readings of the wood",
    "confirmed": "list of dangers read and confirmed",
}
DAMAGE = {
    "number": "1, 2, ... within the case; counted on when left out",
    "family": "id of the damage family",
    "place": "where on the instrument",
    "story": "as found, in the repairer's words",
    "answers": "short form of one look",
    "looks": "list of looks, each ended by an act that changed the instrument",
    "chosen": "id of the strategy",
    "chosen_on": "the day of the decision",
    "reason": "why this one",
    "advice": "what was advised then, as JSON",
    "figures": "list of worksheets used: worksheet, inputs, result",
    "steps": "list of steps done: text, done_on, by (initials), hours, note",
    "measured": "list of sizes as made: what, value, note",
    "done": "what was really done, in words",
    "hours": "bench hours in all",
    "repaired_on": "the day it was finished",
    "outcome": "short form of one follow-up",
    "followups": "list of looks after the repair",
    "learned": "what one would do differently",
    "consents": "list of what was said to the work; the last counts",
    "departures": "list of what was done otherwise than planned",
    "before_after": "list of readings before and after the work",
    "urgency": "must, should or can_wait, as somebody said",
}
INSTRUMENT = {
    "kind": "flute, clarinet, oboe, bassoon ...",
    "description": "system, size, pitch",
    "materials": "body and keys",
    "marks": "marks and numbers on it",
    "uid": "32 digits and letters a to f; the same uid is the same instrument, visit after visit",
}
LOOK = {
    "taken": "the day of the look",
    "ended_by": "the act that ended it",
    "note": "anything else",
    "answers": "question id to answer",
}
FIGURES = {"worksheet": "its id", "inputs": "name to value as typed", "result": "as JSON"}
STEP = {
    "text": "what was done",
    "done_on": "the day",
    "by": "initials",
    "hours": "bench hours",
    "note": "anything else",
}
MEASURED = {"what": "what was measured", "value": "the size with its unit", "note": "anything else"}
FOLLOW_UP = {
    "looked": "the day it was seen or told",
    "held": "yes, no or not_known; may be left out where kind says it",
    "kind": "holding, let_go, knocked_again, altered_by_others, new_fault_elsewhere or not_seen",
    "what": "of let_go: glue, wood, thread, metal or line",
    "since": "the day it started",
    "cause": "why it did not hold, in words",
    "by_phone": "yes where it was told and not seen",
    "redo_hours": "hours of a free redo",
    "note": "anything else",
}
WAIT = {
    "for": "owner, part, wood, glue or me",
    "since": "the day it began",
    "until": "the day it is expected to end",
    "at": "the time of that day, as 14:30",
    "ended": "the day it was ended by hand",
    "damage": "number of the damage that waits, if not the whole case",
    "note": "which part, which glue, what was asked",
}
WOOD_READING = {
    "read_on": "the day",
    "part": "which joint",
    "weight": "its weight, as 182.4 g",
    "humidity": "of the room, in percent",
    "widths": "list of widths at up to three places, always the same ones",
    "note": "anything else",
}
CONSENT = {
    "said": "yes, no or later",
    "given_on": "the day",
    "who": "who said it",
    "how": "by telephone, in writing, at the counter",
    "up_to": "the most it may cost",
    "to_what": "the strategy or the words it was said to",
    "pays": "who pays for this damage, if not who pays for the case",
    "note": "anything else",
}
DEPARTURE = {"planned": "what was planned", "did": "what was done instead", "why": "why"}
BEFORE_AFTER = {
    "what": "what was read: a leak, a spring's force",
    "before": "before the work",
    "after": "after it",
    "note": "anything else",
}
CONFIRMED = {"caution": "id of the caution", "confirmed_on": "the day", "by": "initials"}
