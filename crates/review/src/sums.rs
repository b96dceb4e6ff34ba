//! Sums and differences as they are spoken.

use crate::arithmetic::{Found, is_put_right};
use crate::tokens::{Kind, Token};
use crate::words::Word;

/// Verbs that say that a sum follows.
const MAKES: [&str; 35] = [
    "make",
    "makes",
    "making",
    "made",
    "equal",
    "equals",
    "total",
    "totals",
    "totalling",
    "give",
    "gives",
    "giving",
    "add",
    "adds",
    "sum",
    "sums",
    "come",
    "comes",
    "coming",
    "leave",
    "leaves",
    "leaving",
    "bring",
    "brings",
    "work",
    "works",
    "amount",
    "amounts",
    "reach",
    "reaches",
    "form",
    "forms",
    "produce",
    "produces",
    "yields",
];
/// Verbs that say many other things as well.
const IS: [&str; 10] = ["is", "are", "that's", "it's", "that'll", "gets", "get", "be", "they're", "you've"];
/// Words that can stand between the digits, the verb and the sum.
const SOFT: [&str; 33] = [
    "to",
    "up",
    "us",
    "you",
    "me",
    "we",
    "that",
    "which",
    "together",
    "all",
    "just",
    "only",
    "already",
    "exactly",
    "a",
    "will",
    "would",
    "then",
    "in",
    "so",
    "with",
    "even",
    "both",
    "of",
    "the",
    "again",
    "it",
    "here",
    "there",
    "at",
    "out",
    "altogether",
    "i",
];
/// Words that make the sum a bound or a denial, which is not judged.
const UNSURE: [&str; 30] = [
    "more", "less", "over", "under", "least", "most", "about", "nearly", "almost", "not", "never", "don't",
    "doesn't", "can't", "cannot", "isn't", "aren't", "won't", "wouldn't", "didn't", "couldn't", "greater",
    "fewer", "too", "or", "either", "neither", "nor", "if", "from",
];
/// Before the digits: what follows is asked or only supposed.
const SUPPOSED: [&str; 14] = [
    "if",
    "suppose",
    "supposing",
    "imagine",
    "pretend",
    "whether",
    "unless",
    "do",
    "does",
    "did",
    "could",
    "can",
    "were",
    "should",
];
const MINUS: [&str; 5] = ["minus", "less", "subtract", "without", "take"];

/// More readings of one list are not looked at.
const MOST_WAYS: usize = 16;

/// Wrong sums, and right ones by their last token.
pub(crate) fn sums(words: &[Word], tokens: &[Token], side: u16) -> (Vec<Found>, Vec<(usize, u16)>) {
    let (mut wrong, mut right) = (Vec::new(), Vec::new());
    let mut at = 0;
    while at < tokens.len() {
        let Some(numbers) = list(tokens, at) else {
            at += 1;
            continue;
        };
        // Of "five two minus three is": what is taken from is the last of the numbers.
        let last_term = *numbers.terms.last().unwrap_or(&at);
        let found = difference(words, tokens, last_term).or_else(|| sum(words, tokens, at, side));
        let Some(it) = found else {
            at = numbers.end;
            continue;
        };
        // What was said may begin the next sum: "two and three make five and six make eleven".
        at = it.last.max(at + 1);
        match it.wrong {
            None => right.push((it.last, it.said)),
            Some(it) if is_supposed(tokens, it.tokens.0) => {}
            Some(it) => wrong.push(it),
        }
    }
    (wrong, right)
}

struct Reckoned {
    last: usize,
    said: u16,
    wrong: Option<Found>,
}

/// A number with its other readings.
fn number(tokens: &[Token], at: usize) -> Option<(u16, Option<&[u16]>)> {
    match &tokens.get(at)?.is {
        Kind::Number { value, run } => Some((*value, run.as_deref())),
        _ => None,
    }
}

fn word(tokens: &[Token], at: usize) -> Option<&str> {
    match &tokens.get(at)?.is {
        Kind::Word(it) => Some(it),
        _ => None,
    }
}

/// Numbers one after the other, with at most "and" or "plus" between them.
struct List {
    /// The tokens that are numbers.
    terms: Vec<usize>,
    has_plus: bool,
    has_and: bool,
    /// The token after it.
    end: usize,
}

fn list(tokens: &[Token], begin: usize) -> Option<List> {
    number(tokens, begin)?;
    let mut list = List { terms: vec![begin], has_plus: false, has_and: false, end: begin + 1 };
    while !tokens[list.end - 1].ends {
        let link = word(tokens, list.end).filter(|it| ["and", "plus", "add", "a"].contains(it));
        let next = list.end + usize::from(link.is_some());
        if number(tokens, next).is_none() || (link.is_some() && tokens[next - 1].ends) {
            break;
        }
        list.has_plus |= link == Some("plus") || link == Some("add");
        list.has_and |= link == Some("and");
        list.terms.push(next);
        list.end = next + 1;
    }
    Some(list)
}

/// What follows a list: a verb and a number. Gives the number's token and whether the verb is a sure one.
fn result(tokens: &[Token], begin: usize) -> Option<(usize, bool)> {
    let mut verb: Option<bool> = None;
    let mut at = begin;
    // A sentence that ends in between ends the sum.
    while at < begin + 7 && !tokens[at - 1].ends {
        if number(tokens, at).is_some() {
            return verb.map(|it| (at, it));
        }
        match word(tokens, at)? {
            it if UNSURE.contains(&it) => return None,
            // "make that fifteen" takes back what was said.
            "make" if word(tokens, at + 1) == Some("that") => return None,
            it if MAKES.contains(&it) => verb = Some(true),
            it if IS.contains(&it) => verb = verb.or(Some(false)),
            it if SOFT.contains(&it) => {}
            _ => return None,
        }
        at += 1;
    }
    None
}

/// The readings of a number that ends a sum: "makes twenty, two goes here" may be captioned 22.
fn readings(words: &[Word], tokens: &[Token], at: usize) -> Vec<u16> {
    let Some((value, run)) = number(tokens, at) else { return Vec::new() };
    let mut readings = vec![value];
    if tokens[at].n_words == 2 && value < 100 {
        readings.push(value / 10 * 10);
    }
    // A numeral that took in the digit said next: "makes 14 5" as 145.
    if run.is_some_and(|it| it.len() > 2) {
        readings.extend([value / 10, value / 100]);
    }
    let last = &words[tokens[at].word + tokens[at].n_words - 1].text;
    // "are nines" is no sum.
    if last.ends_with('s') { Vec::new() } else { readings }
}

/// Where a sum is said, and whether the verb is a sure one: after its terms, or before them as in "fourteen is what
/// three, five and six make" and "fourteen is three plus five plus six".
fn told(tokens: &[Token], list: &List) -> Option<(usize, bool)> {
    let begin = list.terms[0];
    let before = |n: usize| begin.checked_sub(n).and_then(|it| word(tokens, it)).unwrap_or("");
    let is_verb = |it: &str| IS.contains(&it) || it == "equals";
    if before(1) == "what" && is_verb(before(2)) {
        let is_made = word(tokens, list.end).is_some_and(|it| MAKES.contains(&it));
        return (is_made && number(tokens, begin - 3).is_some()).then(|| (begin - 3, true));
    }
    let after = result(tokens, list.end);
    let is_led = list.has_plus && is_verb(before(1)) && begin > 1 && number(tokens, begin - 2).is_some();
    after.or_else(|| is_led.then(|| (begin - 2, true)))
}

fn sum(words: &[Word], tokens: &[Token], begin: usize, side: u16) -> Option<Reckoned> {
    let list = list(tokens, begin)?;
    let (told_at, is_sure) = told(tokens, &list)?;
    let last = told_at.max(list.end - 1);
    // Two digits run together are hardly a list: "27 is eight" is said of something else.
    let is_one =
        list.terms.len() == 1 && number(tokens, begin).and_then(|it| it.1).is_none_or(|it| it.len() < 3);
    if is_one && !is_sure {
        return None;
    }
    let readings = readings(words, tokens, told_at);
    let said = *readings.first()?;
    let sum = |it: &[u16]| it.iter().fold(0_u16, |a, b| a.saturating_add(*b));
    let tried: Vec<(usize, Vec<u16>)> = begins(tokens, &list, side)
        .into_iter()
        .flat_map(|from| ways(tokens, &list.terms[from..], from, side))
        .collect();
    let tried: Vec<(usize, Vec<u16>)> =
        tried.into_iter().map(|(from, it)| (list.terms[from], it)).filter(|it| it.1.len() > 1).collect();
    if tried.iter().any(|it| readings.contains(&sum(&it.1))) {
        return Some(Reckoned { last, said, wrong: None });
    }
    // Crusts are never added, nothing is added twice; a sum that grows begins with what it was before.
    let is_filling = |it: &u16| (2..side).contains(it);
    let is_sum = |it: &Vec<u16>| {
        let distinct = (1..it.len()).all(|at| !it[..at].contains(&it[at]));
        let begins = is_filling(&it[0]) || (list.has_plus && it[0] >= side);
        distinct && begins && (it[1..].iter().all(is_filling) || list.has_plus)
    };
    let is_like_a_sum = |it: &Vec<u16>| {
        let most = it.iter().max().copied().unwrap_or(0);
        let off = sum(it).abs_diff(said);
        // "two and five, that's five gone": only a number larger than all can be their sum, and slips are small or of
        // a ten; what is put right at once was a slip.
        is_sure || (said > most && (off < 3 || off == 10)) || is_put_right(tokens, last, sum(it))
    };
    let likely = tried.iter().rev().filter(|it| is_sum(&it.1) && is_like_a_sum(&it.1));
    let (first, terms) = likely.min_by_key(|it| sum(&it.1).abs_diff(said))?;
    let right = sum(terms);
    let terms: Vec<String> = terms.iter().map(u16::to_string).collect();
    let because = format!("{} = {right}", terms.join(" + "));
    let first = told_at.min(*first);
    Some(Reckoned { last, said, wrong: Some(Found { tokens: (first, last), said, right, because }) })
}

/// With which of its terms a list can begin that is added. Numbers said just before it may seem to belong to it:
/// digits are listed from small to large, so a smaller one begins anew, as does one after something that is no filling
/// digit; and the first may be what the words before it were about ("that's five two and three make").
fn begins(tokens: &[Token], list: &List, side: u16) -> Vec<usize> {
    let value = |nth: usize| number(tokens, list.terms[nth]).map_or(0, |it| it.0);
    let is_linked = |nth: usize| list.terms[nth] > list.terms[nth - 1] + 1;
    let is_new = |nth: usize| {
        let (before, own) = (value(nth - 1), value(nth));
        !is_linked(nth) && (own <= before || before < 2 || before >= side)
    };
    let is_told_of = list.terms[0].checked_sub(1).and_then(|it| word(tokens, it));
    let is_told_of =
        is_told_of.is_some_and(|it| ["that's", "is", "a", "be", "it's", "the", "get", "my"].contains(&it));
    let n = list.terms.len();
    let anew = (1..n).filter(|it| is_new(*it) || (*it == 1 && is_told_of && n > 2 && !is_linked(1)));
    [0].into_iter().chain(anew).collect()
}

/// The terms as numbers, with every choice of taking numerals for digits run together.
fn ways(tokens: &[Token], terms: &[usize], from: usize, side: u16) -> Vec<(usize, Vec<u16>)> {
    let mut ways: Vec<Vec<u16>> = vec![Vec::new()];
    for (value, run) in terms.iter().filter_map(|it| number(tokens, *it)) {
        let longer = |way: &Vec<u16>, more: &[u16]| way.iter().chain(more).copied().collect::<Vec<u16>>();
        let as_run = run.filter(|it| it.iter().all(|it| *it <= side));
        let with_run: Vec<Vec<u16>> =
            as_run.iter().flat_map(|run| ways.iter().map(|it| longer(it, run))).collect();
        ways = ways.iter().map(|it| longer(it, &[value])).chain(with_run).take(MOST_WAYS).collect();
    }
    ways.into_iter().map(|it| (from, it)).collect()
}

/// `35 minus 20 is 15`, `35 take away 20 leaves 15`, `20 from 35 leaves 15`.
fn difference(words: &[Word], tokens: &[Token], begin: usize) -> Option<Reckoned> {
    let (first, _) = number(tokens, begin)?;
    if tokens[begin].ends {
        return None;
    }
    let link = word(tokens, begin + 1)?;
    let (is_from, second) = match link {
        "from" | "off" => (true, begin + 2),
        "take" | "taken"
            if word(tokens, begin + 2).is_some_and(|it| ["away", "off", "from"].contains(&it)) =>
        {
            (word(tokens, begin + 2) == Some("from"), begin + 3)
        }
        it if MINUS.contains(&it) => (false, begin + 2),
        _ => return None,
    };
    let (other, _) = number(tokens, second)?;
    let (last, is_sure) = result(tokens, second + 1)?;
    let readings = readings(words, tokens, last);
    let said = *readings.first()?;
    let (whole, part) = if is_from { (other, first) } else { (first, other) };
    let right = whole.checked_sub(part)?;
    // "from two up to five is" is a stretch, "from" needs a verb that leaves something.
    if (is_from && !is_sure && right.abs_diff(said) > 12) || readings.contains(&right) {
        return readings.contains(&right).then_some(Reckoned { last, said, wrong: None });
    }
    let because = format!("{whole} − {part} = {right}");
    Some(Reckoned { last, said, wrong: Some(Found { tokens: (begin, last), said, right, because }) })
}

/// Whether what begins there is asked or supposed: one of the words just before it says so.
fn is_supposed(tokens: &[Token], begin: usize) -> bool {
    let before = tokens[..begin].iter().rev().take(5);
    let before = before.take_while(|it| !it.ends && !matches!(it.is, Kind::Number { .. }));
    let mut words =
        before.filter_map(|it| if let Kind::Word(it) = &it.is { Some(it.as_str()) } else { None });
    words.any(|it| SUPPOSED.contains(&it))
}
