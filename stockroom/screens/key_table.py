"""Every key as a table: where it is to be had, what it does, and what is said of it.

Function keys lead to screens. Letter keys wait until it is clear that no scan begins with them.
Ctrl with i, j, m, h or [ is never used: in many terminals these are Tab, Enter, Backspace, Esc.
"""

from enum import StrEnum


class Where(StrEnum):
    """The part of the screens in which an action is to be had."""

    EVERYWHERE = "everywhere"
    SCREEN = "every screen"
    TYPING = "typing by hand"
    LIST = "a list"
    RACK = "Rack"
    CARD = "a piece's card"
    GOODS = "Goods in"
    JOBS = "Jobs"
    A_JOB = "a job"
    CLIMATE = "Climate"
    BUYING = "Buying"
    ORDERS = "Orders"
    SUPPLIERS = "Suppliers"
    VALUE = "Value"
    LOG = "Log"
    ACT = "an act"
    BENCH = "Bench"
    JOB = "Bench, at the job"
    QUESTION = "a question"
    FORM = "a form"
    HELP = "the help"


# id, key, action, words, tooltip
TABLE = {
    Where.EVERYWHERE: (
        ("help", "f1", "app.help", "Help", "What this screen is for, and its keys; again to close"),
        ("everything", "ctrl+p", "app.command_palette", "Everything", "Find an action by name"),
        ("today", "f2", "app.go('today')", "Today", "What needs a hand"),
        ("rack", "f3", "app.go('rack')", "Rack", "Every piece, and where it stands"),
        ("bench", "f4", "app.go('bench')", "Bench", "Cut a piece for a job"),
        ("goods", "f5", "app.go('goods')", "Goods in", "Receive rolls and boxes, and label them"),
        ("jobs", "f9", "app.go('jobs')", "Jobs", "The work that film is charged to"),
        ("log", "f10", "app.go('log')", "Log", "Everything that was done, newest first"),
        ("climate", "f12", "app.go('climate')", "Climate", "How warm and damp the zones were"),
        ("buying", "ctrl+b", "app.go('buying')", "Buying", "What to order, when, and how much"),
        ("quit", "ctrl+q", "app.quit", "Quit", "Leave the program; what was done is kept"),
    ),
    Where.SCREEN: (
        ("type", "slash", "screen.type", "Type", "Type a code instead of scanning it"),
        ("who", "ctrl+o", "screen.who", "Who", "Say who is at work, and is written down"),
    ),
    Where.TYPING: (("leave", "escape", "leave", "Leave", "Stop typing; nothing is kept"),),
    Where.LIST: (
        ("row-up", "up", "move(-1)", "Up", "One row up"),
        ("row-down", "down", "move(1)", "Down", "One row down"),
        ("page-up", "pageup", "page(-1)", "Page up", "One screenful up"),
        ("page-down", "pagedown", "page(1)", "Page down", "One screenful down"),
        ("first-row", "home", "first", "First", "The first row"),
        ("last-row", "end", "last", "Last", "The last row"),
        ("open", "enter", "choose", "Open", "Open the row under the cursor"),
    ),
    Where.RACK: (
        ("by-verdict", "v", "by_verdict", "Verdict", "Only one verdict, then the next, then all"),
        (
            "by-material",
            "m",
            "by_material",
            "Material",
            "Only the material under the cursor; again: all",
        ),
        ("by-place", "p", "by_place", "Place", "Only the place under the cursor; again: all"),
        ("everything-again", "escape", "show_all", "All", "Every piece again"),
    ),
    Where.CARD: (
        ("cut", "c", "cut", "Cut", "Take the piece to the Bench"),
        ("go-out", "o", "form('out')", "Out", "The piece goes to a van or a site"),
        ("come-in", "i", "form('in')", "In", "The piece is here again; what is less was used"),
        ("back", "b", "form('back')", "Back", "Film or goods come back from a job"),
        ("count", "n", "form('count')", "Count", "Measure what is left"),
        ("put", "p", "form('put')", "Put", "Say where the piece stands"),
        (
            "trial",
            "t",
            "form('trial')",
            "Trial",
            "Enter how the trial went that the verdict asks for",
        ),
        (
            "look-at-roll",
            "r",
            "look_at",
            "Roll",
            "How it was kept: its air, and the curl of its wraps",
        ),
        ("label", "l", "label", "Label", "Write the piece's label to a file"),
        ("hold", "h", "form('hold')", "Hold", "Let nobody cut the piece, or release it again"),
        (
            "other-trial",
            "k",
            "form('other-trial')",
            "Other trial",
            "Enter the trial that is not asked for: of adhesion, or of curl",
        ),
        ("flaw", "f", "form('flaw')", "Flaw", "Mark where a splice or damage lies"),
        (
            "rewind",
            "w",
            "form('rewind')",
            "Wind",
            "Wind the piece anew, on the same or another core",
        ),
        ("lie-flat", "a", "lie_flat", "Lay flat", "Lay the piece flat: its days wound stop"),
        ("send-back", "s", "form('send-back')", "Send back", "Send the piece back to its supplier"),
        ("undo", "u", "undo", "Undo", "Reverse the last act on the piece"),
        ("leave-card", "escape", "leave", "Leave", "Back to the list"),
    ),
    Where.GOODS: (
        ("line-before", "up", "line(-1)", "Line", "The line before; what was typed is kept"),
        ("line-after", "down", "line(1)", "Line after", "The next line, or a new one"),
        ("take-order", "f6", "take_order", "Order", "Add what is to come of the order named below"),
        ("drop-line", "f7", "drop_line", "Drop", "Take the line out of the delivery"),
        ("receive-all", "f8", "receive", "Receive", "Receive every line in one act, with labels"),
        ("new-line", "escape", "new_line", "New line", "Leave this line; what is not kept is lost"),
    ),
    Where.JOBS: (
        ("cut-for", "c", "cut_for", "Cut", "Take the job under the cursor to the Bench"),
        ("new-job", "n", "new_job", "New", "Open a new job"),
        ("close-job", "x", "close", "Close", "The job under the cursor is done"),
        ("reopen-job", "r", "reopen", "Reopen", "Open the job under the cursor again"),
        ("only-open", "o", "only_open", "Open ones", "Only jobs that are open; again: all"),
        ("every-job", "escape", "every_job", "All", "Every job again"),
    ),
    Where.A_JOB: (
        ("plan-job", "p", "plan", "Plan", "Choose film for its panels, and lay them out on it"),
        ("reserve", "k", "reserve", "Reserve", "Keep the planned film for the job"),
        ("add-panels", "w", "add_panels", "Panels", "Write down what it covers, a line each"),
        ("next-film", "n", "next_film", "Next", "The next film of the plan"),
        ("cut-for-this", "c", "cut_for", "Cut", "Take the job to the Bench"),
        ("used-film", "u", "used", "Used", "The pieces it used, or its panels again"),
        ("let-go", "l", "let_go", "Let go", "Let the film go that is kept for the job"),
        ("install", "i", "install", "Installed", "The film of the job is up"),
        ("spoil-panel", "s", "spoil", "Spoiled", "One of the panel is lost after it was cut"),
        ("drop-panel", "d", "drop_panel", "Drop", "Take the panel under the cursor off the list"),
        ("acts-of-job", "a", "acts", "Acts", "What was done for the job, on the Log"),
        ("close-this-job", "x", "close", "Close", "The job is done"),
        ("reopen-this-job", "r", "reopen", "Reopen", "Open the job again"),
        ("leave-job", "escape", "leave", "Leave", "Back to the list"),
    ),
    Where.CLIMATE: (
        (
            "read-sensor",
            "r",
            "form('reading')",
            "Reading",
            "Write down what the zone's sensor says",
        ),
        ("set-sensor", "s", "form('sensor')", "Sensor", "Say which sensor stands where"),
        ("set-zone", "p", "form('place')", "Place", "Say which place lies in the zone"),
        ("one-day", "d", "look_back('day')", "24 h", "The last 24 hours of the zone"),
        ("one-week", "w", "look_back('week')", "7 days", "The last 7 days of the zone"),
        ("one-month", "m", "look_back('month')", "30 days", "The last 30 days of the zone"),
        ("one-year", "y", "look_back('year')", "14 months", "The last 14 months of the zone"),
    ),
    Where.BUYING: (
        (
            "by-supplier",
            "s",
            "by_supplier",
            "Supplier",
            "Only the supplier under the cursor; again: all",
        ),
        ("draft", "d", "draft", "Draft", "Order of that supplier what the plan says"),
        ("orders", "o", "orders", "Orders", "What is drafted, on its way, and late"),
        (
            "suppliers",
            "w",
            "suppliers",
            "Who sells",
            "Each supplier, how long it takes, what to order",
        ),
        ("value", "v", "value", "Value", "What the room is worth, and what became of it"),
    ),
    Where.ORDERS: (
        ("send-order", "t", "send_order", "Sent", "It has gone out, or comes another day"),
        ("write-order", "p", "write_order", "Page", "Write it to a page to print, a text to mail"),
        ("cancel-order", "x", "cancel_order", "Cancel", "Nothing more of it is to come"),
        ("leave-orders", "escape", "leave", "Leave", "Back to what to buy"),
    ),
    Where.SUPPLIERS: (("leave-suppliers", "escape", "leave", "Leave", "Back to what to buy"),),
    Where.VALUE: (("leave-value", "escape", "leave", "Leave", "Back to what to buy"),),
    Where.LOG: (
        (
            "undo-act",
            "u",
            "undo_act",
            "Undo",
            "Reverse the act under the cursor, if it is the last",
        ),
        ("by-piece", "p", "by_piece", "Piece", "Only the piece under the cursor; again: all"),
        ("by-job", "j", "by_job", "For job", "Only the job under the cursor; again: all"),
        ("by-person", "b", "by_person", "By", "Only the person under the cursor; again: all"),
        ("by-day", "d", "by_day", "Day", "Only the day under the cursor; again: all"),
        ("every-act", "escape", "every_act", "All", "Every act again"),
    ),
    Where.ACT: (
        ("undo-this", "u", "undo_act", "Undo", "Reverse this act, if it is the last on its pieces"),
        ("leave-act", "escape", "leave", "Leave", "Back to the list"),
    ),
    Where.BENCH: (
        ("next-line", "f6", "next_line", "Waiting", "Take up the line that has waited longest"),
        (
            "finished",
            "f7",
            "finished",
            "Finished",
            "The core is bare, or the box is empty",
        ),
        ("undo-mine", "f8", "undo_mine", "Undo mine", "Reverse the last act you wrote"),
        ("start-over", "escape", "start_over", "Clear", "Start the line over; nothing is written"),
    ),
    Where.JOB: (
        ("job-1", "1", "job(1)", "Job", "The job beside the number; the one used last is 1"),
        ("spoiled", "s", "reason('spoiled')", "Spoiled", "For no job: the film was spoiled"),
        ("sample", "m", "reason('sample')", "Sample", "For no job: a sample"),
        ("training", "t", "reason('training')", "Training", "For no job: somebody learns"),
        ("leader", "l", "reason('leader')", "Leader", "For no job: the leader of a print"),
        ("out-here", "o", "away('out')", "Out", "The piece goes to a van or a site"),
        ("in-here", "i", "away('in')", "In", "The piece is here again; what is less was used"),
        ("keep-job", "enter", "keep", "Keep", "Go on with the job that stands there"),
    ),
    Where.QUESTION: (
        ("yes", "y", "answer(True)", "Yes", "Do what is asked"),
        ("no", "n", "answer(False)", "No", "Do not do it"),
        (
            "no-answer",
            "escape",
            "withdraw",
            "Withdraw",
            "Take the question back; nothing is written",
        ),
    ),
    Where.FORM: (
        ("form-line-before", "up", "line(-1)", "Up", "The line above"),
        ("form-line-after", "down", "line(1)", "Down", "The line below"),
        ("leave-form", "escape", "leave", "Leave", "Close the form; nothing is written"),
    ),
    Where.HELP: (("leave-help", "escape", "leave", "Leave", "Back to the screen"),),
}
