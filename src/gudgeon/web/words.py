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
SAID_PICTURE = "Kept: {count} of {of} pictures."
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
