"""Fixed wording that pages put together in Python. The rest of what people read stands in the templates, and nowhere else."""

from __future__ import annotations

PROGRAM = "gudgeon"

STANDING = {
    "within": "inside its limit",
    "doubtful": "can’t tell yet",
    "past": "past its limit",
    "not measured": "not measured",
    "for information": "for information",
}

DIRECTIONS = {0.0: "along the crank", 90.0: "across the crank"}
DIRECTION_OTHER = "{degrees:g}° round from along the crank"

RUNS_BY_UNKNOWN = "can’t tell yet"
NOTHING_TO_MEASURE = "nothing more would change it"
AT_LEAST = "at least {sum}"
PURSE_NONE = "no purse set"
MONEY_NONE = "no price known"

SAID_READING = "Taken: {echo}."
SAID_CONFIRMED = "It stands, confirmed by {person}."
SAID_CORRECTED = "Corrected; the old reading is kept."
SAID_SETTLED = "Settled: {title}."
SAID_SENT = "Sent to {shop}, and frozen as it stood."
SAID_NOTED = "Noted: {state}."
SAID_PRICE = "Kept: the figures for {name}."
SAID_AIMS = "Kept: what you want."
SAID_DONE = "Done: {title}."
SAID_OUTLINE = "Kept: the outline. The old one stays in the history."
SAID_PERSON = "Changes from this device are written down under {name}."
SAID_PART = "Noted: {item}."
SAID_PART_MORE = "Noted: {item}, tag {tag}. The next one?"
SAID_PICTURES = ("Kept: {count} picture.", "Kept: {count} pictures.")
SAID_MARKS = "Kept: what is drawn on it. The photo itself stays as it was."
SAID_ABOUT_PICTURE = "Kept: what it shows."
SAID_BACK = "{item} is back."
SAID_OFF = "{item} is off again."
SAID_RETURNED = ("{count} reading of the returned work taken.", "{count} readings of the returned work taken.")
SAID_MENDED = "Mended and taken."

NO_PAGE = "There is no page at this address."
NO_JOB = "No job called “{name}” stands here; the shed lists those that do."
NO_SYSTEM = "No system is called “{key}” here."
NO_FINDING = "Nothing of that name is found here now; a reading may have changed it. The list of findings shows what stands."
NO_LINE = "This sheet has no such line; pick one from the list."
TOO_MUCH = "What was sent is larger than {most} MB, which is the most that this page takes."
NOT_FROM_HERE = "This request came from another site’s page, so nothing was done. Open the page here and send it again."
NOT_THIS_HOST = "This address is not one that the workbench answers to; open it by the address it printed when it started."
NOT_PAIRED = "This device is not paired yet. Type the code that the workbench shows on the machine it runs on."
WRONG_CODE = "That is not the code, or it has been used. A new one is shown on the machine that the workbench runs on."
TOO_MANY_CODES = "Too many wrong codes. Wait a minute, then type the code that is shown now."
NO_NAME = "Nobody was named for this change; every change names a person: give your name first."
NO_FILE = "No file was chosen; choose the CSV file that holds the readings."
NO_PICTURE = "No picture was chosen; choose one, or take one with the camera."
BAD_NUMBER = "“{typed}” was read as {what}; a number such as {example} would be right."
BAD_DATE = "“{typed}” was read as {what}; a date such as 2027-05-01 would be right."
BAD_HEAD = "“{typed}” is no seal of a history; the 64 figures and letters a to f printed in the book would be right."
BAD_CHOICE = "“{typed}” is none of the choices here."
SORRY = "Something in the program went wrong on this page; what was typed is listed below, and nothing was lost from the job."

NO_PART = "No such part is noted in this job; the list of parts shows those that are."
NO_TAG = "“{typed}” was read as the number on a tag; a whole number such as 14 would be right."
NO_FILE_WITH_PICTURES = "{name} is no picture that can be kept; JPEG, PNG or HEIC would be right."
BAD_MARKS = "What was drawn could not be read; draw it again."
CROSSED = (
    "Since this page was filled, {person} wrote about the same thing ({at}). Nothing was overwritten; look at both and choose."
)
NO_HOST = "Say where phones find this workbench, as 192.168.1.20:8765."
EMPTY = "nothing"

ODD = ("{count} reading looks odd and may be a slip", "{count} readings look odd and may be slips")
UNREAD = ("{count} line could not be read", "{count} lines could not be read")
TO_SETTLE = "To settle: {subject}"
TO_SEND = "Ready to send: {title}"
TO_INSPECT = "To inspect in: {title}"
BY_THE_DAY = "by {day}: {chance}"
NOT_BEFORE = "not before {day}"
ABOUT = "about {day}"
DONE_ON = "done {day}"
NINE_IN_TEN = "{low} to {high}, 9 in 10"
AND_AGREED = "{span}; agreed {agreed}"
CAN_RUN = "can run: {day}"
AIMED_AT = "aimed at: {day}"
PLAN_PICTURE = "What waits for what, until it runs"
FIT_UP = "fit-up"
PRIORITIES = (
    ("by_the_date", "the date"),
    ("within_the_purse", "the purse"),
    ("keep_original", "original metal"),
    ("longest_life", "long life"),
)
LIMIT_LEAST = "at least {size}"
LIMIT_MOST = "at most {size}"
DOWN = "{depth} down"
LEVEL = "level {name}"
HELD = "held"
READY = "ready to send"
PROMISED_FOR = ", promised for {day}"
SENT_ON = "sent {day}{promised}"
JOB_ABOUT = "{count} entries, last {at}"

# Parts: words to tap for the condition, in the order in which a person looks; anything else is written beside them.
CONDITIONS = (
    "clean", "worn bright", "scored", "rusted", "pitted", "cracked", "broken", "bent", "seized", "loose", "worn through",
    "melted", "repaired before", "missing", "never seen one like it",
)  # fmt: skip
FIELDS = {
    "part": "kind of part",
    "item": "which part",
    "place": "where it sat",
    "orientation": "which way round",
    "marks": "match marks",
    "condition": "condition",
    "shims": "shims",
    "mates": "mated to",
    "stored": "bag or box",
    "note": "note",
    "back": "back on",
    "run_by": "run by",
    "hours_a_week": "hours a week",
    "hours_a_year": "hours a year",
    "typed": "reading",
    "reading": "reading",
}
SHIM_SIDES = "left: {left}; right: {right}"
SEE = (("list", "as they came off"), ("together", "put together"), ("pictures", "by picture"))
OTHER_SYSTEM = "other"
TAKEN_AT = "taken {at}"
FIRST_LAST = "{first} to {last} of {count}"

SHEETS = {
    "engine": "general arrangement",
    "bench": "bench sheet, {name}",
    "doubtful": "readings asked about",
    "bring in": "readings from a file",
    "refused": "lines to mend",
    "remedies": "remedies, {name}",
    "orders": "outwork",
    "order": "order, {name}",
    "sent": "inspected in, {name}",
    "plan": "plan",
    "parts": "parts as they came off",
    "note": "note a part",
    "part": "part, {name}",
    "tags": "tags",
    "photo": "photo, {name}",
    "record": "record",
    "outline": "outline",
    "shed": "shed",
    "who": "who sits here",
    "pair": "let this device in",
    "patterns": "patterns",
    "wait": "being reckoned",
    "fault": "not done",
}

NAV = (
    ("engine", "engine"),
    ("bench", "bench"),
    ("findings", "findings"),
    ("remedies", "remedies"),
    ("orders", "orders"),
    ("plan", "plan"),
    ("parts", "parts"),
    ("record", "record"),
)


def counted(forms: tuple[str, str], count: int) -> str:
    """The form for one or for several, with the number in it."""
    return forms[count != 1].format(count=count)
