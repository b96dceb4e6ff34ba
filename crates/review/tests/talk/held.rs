//! The phrase book that nothing was tuned on; for measuring only.

use super::Book;

pub(crate) static HELD: Book = Book {
    opening: &[
        "good evening from the lantern room",
        "here's one that I solved cold this morning in 31 minutes",
        "every row, column and box gets one through nine exactly once",
        "each number by the side totals whatever sits between the one and the nine on its line",
        "links are below, have a try yourself first",
    ],
    closing: &[
        "there we have it then, complete",
        "thanks ever so much for keeping me company",
        "take care of yourselves until the next evening",
    ],
    fillers: &["er", "hmm", "yes", "good", "and then", "fine", "I suppose", "there we are", "like", "next"],
    chatter: &[
        "that was rather satisfying",
        "where on earth do we go from here",
        "bear with me a moment",
        "somebody is hoovering upstairs, sorry about that",
        "this part of the board is a bit bare",
        "it always takes me ages to spot these",
        "lovely bit of construction this",
        "I ought to have seen that much sooner",
    ],
    one_place: &[
        "the {d} for this {h}, it gets blocked here and here, must be that square, {d}",
        "can I place {d} somewhere round here, yes, this {h}, that's its last chance",
        "these two {d} beams cross and they push {d} into this corner",
        "put {d} in, it's fixed by its friends elsewhere in the {h}",
        "that forces {d} over on this side",
        "{d} is done for this {h} as well",
    ],
    one_digit: &[
        "I've run out of choices for this cell, {d}",
        "cross off all that it can see and {d} survives",
        "that one turns into {d} because it can't be anything else",
    ],
    last_cell: &[
        "one hole in this {h} and {d} fills it",
        "we're short of {d} in that {h} so there it goes",
        "{d} wraps up this {h}",
        "nothing but {d} to write in here",
    ],
    remainder: &[
        "our {c} line now holds {s} which forces {d} for the gap",
        "on the {c} I can see {s}, top it up with {d}",
        "one blank in the {c} and with {s} it becomes {d}",
    ],
    whole: &["one square on its own worth {c}, write {d}", "the {c} is a single one, {d}"],
    outside: &[
        "take the {c} and count what is beyond the ends instead",
        "the complement of {c} is where the information is",
        "who gets left out of {c}",
    ],
    too_few: &["{n} can't do it as {s} is the ceiling", "with {n} you'd reach {s} tops and that isn't {c}"],
    too_many: &["{n} bursts it because {s} is the floor", "and at {n} the smallest is {s} which beats {c}"],
    distance: &[
        "therefore {n} to {m} squares inside that {c}",
        "from {n} up to {m} then is how wide the {c} stretches",
    ],
    touch: &[
        "nothing at all in this {h} so one nine hold hands",
        "0 on the side, 19 sit beside each other there",
    ],
    ends: &[
        "a full {c}, which sends one and nine to the far edges of this {h}",
        "that {c} uses every filling there is, so the 1 9 bracket the entire {h}",
    ],
    reach: &[
        "given {n} up to {m} of a gap, one and nine have hardly any freedom, this stays within",
        "try the one nine at {n} spacing, it keeps covering this middle",
        "a gap of {m} is the limit so this end never sees a one or nine",
    ],
    crusts: &[
        "we have located one and nine of this {h}, the others are ordinary",
        "there's the one nine for that {h}",
        "this is forced to hold a nine or a one",
        "mark that as a one nine cell",
    ],
    no_crust: &[
        "here one is impossible and so is nine, it's ordinary then",
        "a one looks at it, a nine looks at it, so it's just filling",
        "19 both banned from here",
    ],
    combos: &["let me list how {c} could come about", "options for {c} are few"],
    each_combo: &["{s} is a possibility", "or {s}", "maybe {s}"],
    gone: &["{d} is impossible in that spot", "cross {d} off here", "no {d} for this cell"],
    placed: &["{d} it is", "write {d}", "this becomes {d}", "has to be {d} here"],
    pair: &["a matched set, {s}, fenced in there", "only {s} for those and they're used up"],
    sums: &["{s} come to {t}", "{s} equals {t}", "{s} totals {t}", "{s} make {t} together", "{s} are {t}"],
    differences: &["{s} from {t} leaves {r}", "{t} subtract {s} gives {r}", "{t} minus {s} equals {r}"],
    most: &[
        "{n} cells hold at most {t}",
        "the maximum for {n} cells is {t}",
        "{n} cells can never exceed {t}",
    ],
    least: &[
        "{n} cells hold at least {t}",
        "the smallest {n} cells can do is {t}",
        "{n} digits is no less than {t}",
    ],
    fewest_cells: &["at least {n} cells for {c}", "you need a minimum of {n} cells to reach {c}"],
    most_cells: &["no more than {n} cells for {c}", "{c} fits into {n} cells at most"],
    elsewhere: &[
        "my eye is drawn to the {c} but it gives nothing at present",
        "the {c} there is tempting, let's leave it",
        "does {c} do anything, not really",
    ],
    withdrawn: &[
        "{d} must be here, oh no, scrap that, I can't prove it",
        "I'd love to write {d} but there is another place",
        "{d} goes, no it doesn't, ignore me",
    ],
    corrections: &["excuse me", "no hang on", "actually", "rather", "oops", "let me correct that,"],
    no_sums: &[
        "imagine three and four made nine, then we'd be stuck",
        "these are one nine or nine one",
        "in column four row eight there's a gap",
        "does two and six make nine, no",
        "count them, one two three four five",
        "I see three sixes and one seven",
        "we're 14 minutes in",
    ],
};
