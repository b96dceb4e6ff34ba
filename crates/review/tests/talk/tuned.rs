//! The phrase book that the aligner and the proof-reader were tuned on.

use super::Book;

pub(crate) static TUNED: Book = Book {
    opening: &[
        "hello and welcome back everyone",
        "today's puzzle is a lovely one and it comes from a setter I like a lot",
        "normal rules so the digits one to nine go once in every row every column and every box",
        "the clues outside the grid are the sum of what's sandwiched between the one and the nine in that line",
        "pause now if you want to have a go, it took me about 25 minutes",
    ],
    closing: &[
        "and that is that, all finished",
        "what a delightful thing, let me know in the comments how you got on",
        "bye for now and see you at the next one",
    ],
    fillers: &["um", "uh", "okay", "right", "so", "well", "you know", "let's see", "now then", "alright"],
    chatter: &[
        "I really like how this is opening up",
        "my tea is getting cold over there",
        "this is quite elegant isn't it",
        "let me just have a think about that",
        "I don't want to go too fast here",
        "hang on what am I looking at",
        "there's a lot of dark corners left",
        "somebody wrote to me about this sort of thing last week",
    ],
    one_place: &[
        "where's {d} going in this {h}, it's ruled out of there and there so that's my {d}",
        "{d} in this {h} can't be any of these so it drops in here",
        "look at {d}, it sees along there and down there and that leaves this one as a {d}",
        "this {h} wants a {d} and there's one home for it so {d}",
        "and {d} goes in there by looking across",
        "because of that {d} up there I get a {d} in here",
    ],
    one_digit: &[
        "what can this one be, it sees just about all of them so it's {d}",
        "this fella is only ever going to be a {d}",
        "and in there it's got to be {d} because everything else is seen",
    ],
    last_cell: &[
        "this {h} is nearly done, it only needs a {d}",
        "what haven't we had in this {h}, {d}",
        "and that finishes off with a {d} there",
        "so that's {d} to fill up the {h}",
    ],
    remainder: &[
        "back to the {c}, in there we've got {s} and so this needs to be {d}",
        "the {c} sandwich has {s} in it already so the rest is {d}",
        "to get up to {c} with {s} we have to put a {d} in",
    ],
    whole: &[
        "there's just the single cell for {c} so that's simply {d}",
        "this {c} has nowhere to go but here, {d}",
    ],
    outside: &[
        "think about what isn't in the {c} sandwich",
        "flip the {c} around and ask what's left for the outside",
        "the outies of the {c} are useful",
    ],
    too_few: &[
        "could it be {n}, no because {s} is as big as you get",
        "{n} is not enough, {s} falls short of {c}",
    ],
    too_many: &["and {n} would be way too long, {s} goes past it", "not {n} either since {s} overshoots {c}"],
    distance: &[
        "so the {c} has got {n} to {m} cells in it",
        "which means between one and nine for this {c} I have {n} or up to {m} in there",
    ],
    touch: &[
        "zero, so the one nine are right next to each other here",
        "a 0 clue means 1 9 stuck together in this {h}",
    ],
    ends: &[
        "35 is everything so one and nine have to be out at either end of the {h}",
        "look at the {c}, the whole lot is inside, put one nine on the outsides",
    ],
    reach: &[
        "with {n} or {m} in between where can the one and nine sit, these are always swallowed in the middle",
        "slide the one and the nine along, {n} apart, this never works and this is always inside",
        "we know it's {n} to {m} long so 1 9 can't get to these ones",
    ],
    crusts: &[
        "both the one and nine are found for this {h} so those are the in between ones",
        "these two are the one nine pair in this {h}",
        "it must be a one or a nine in there",
        "that's a crust, one nine",
    ],
    no_crust: &[
        "this can't be one because of that and can't be nine because of that, so it's a middle digit",
        "not a crust there, it sees a one and a nine",
        "neither 1 nor 9 here",
    ],
    combos: &["what are the ways of doing {c} here", "how do you make {c} in that many cells"],
    each_combo: &["there's {s}", "you could do {s}", "it could be {s}"],
    gone: &["so this isn't {d}", "{d} gets knocked out of there", "that takes {d} away from this one"],
    placed: &["so that's {d}", "and we get a {d}", "which makes this {d}", "{d} in here then"],
    pair: &["these are {s} between them", "{s} live in those cells so nobody else has them"],
    sums: &["{s} make {t}", "{s} adds up to {t}", "{s} is {t}", "{s} gives us {t}", "{s}, that's {t}"],
    differences: &["{t} take away {s} is {r}", "{t} minus {s} leaves {r}", "{t} less {s} is {r}"],
    most: &[
        "the most {n} cells can be is {t}",
        "{n} cells is {t} at most",
        "{n} digits can't be more than {t}",
    ],
    least: &[
        "the least {n} cells can be is {t}",
        "{n} cells make at least {t}",
        "the minimum for {n} digits is {t}",
    ],
    fewest_cells: &["{c} takes at least {n} cells", "{c} needs {n} cells at the very least"],
    most_cells: &["{c} is at most {n} cells", "{c} can take no more than {n} cells"],
    elsewhere: &[
        "or maybe look at that {c} over here, no not yet",
        "what about the {c}, I'm not sure that helps",
        "I wonder about {c} down there, we'll come back",
    ],
    withdrawn: &[
        "so that's a {d}, no hang on it isn't, take that out again",
        "is it {d} there, actually I can't say that yet",
        "I was going to put {d} but that's not justified",
    ],
    corrections: &["sorry", "no", "I mean", "wait no", "sorry I mean", "no that's wrong it's"],
    no_sums: &[
        "if this were five and that were six it would break",
        "so it's one or nine in both of these",
        "row three column five is interesting",
        "suppose two and seven make eight here, clearly not",
        "one, two, three, four cells along",
        "there are two threes and four fives in view",
        "that's step 12 in my notes",
    ],
};
