//! Talk with slips in it, and talk that only sounds so.

use captions::Caption;

use super::*;

/// What is found wrong on a board with digits up to `side`: `13→14`, with `!` where it was put right.
fn found(side: u16, text: &str) -> String {
    let caption = Caption { from: Time(0), to: Time(60_000), text: text.to_owned() };
    let words = crate::words::words(&[caption]);
    let tokens = crate::tokens::tokens(&words);
    let each = slips(&words, &tokens, side)
        .into_iter()
        .map(|it| format!("{}→{}{}", it.said, it.right, if it.corrected.is_some() { "!" } else { "" }));
    each.collect::<Vec<_>>().join(" ")
}

#[test]
fn wrong_sums_are_found() {
    for (text, expected) in [
        ("three, five and six make thirteen", "13→14"),
        ("So we have 3 plus 5 plus 6 is 13.", "13→14"),
        ("356 make 13", "13→14"),
        ("two and seven adds up to 8", "8→9"),
        ("four, six, eight, that's seventeen", "17→18"),
        ("three five and six make thirteen no fourteen", "13→14!"),
        ("3, 5 and 6 makes 13. Sorry, 14.", "13→14!"),
        ("3 and 5 and 6 give us 13, make that 14", "13→14!"),
        ("two and three make six. hang on, two and three make five", "6→5!"),
        ("thirteen is what three five and six make", "13→14"),
        ("15 is 2 plus 4 plus 8", "15→14"),
        ("thirty five minus twenty is 14", "14→15"),
        ("35 take away 20 leaves 16", "16→15"),
        ("20 from 35 leaves you with 14", "14→15"),
        ("two three four five six seven would be twenty six", "26→27"),
        ("15 plus 6 makes 22", "22→21"),
    ] {
        assert_eq!(found(9, text), expected, "{text}");
    }
}

#[test]
fn wrong_bounds_are_found() {
    for (side, text, expected) in [
        (9, "the most two cells can be is 14", "14→15"),
        (9, "the most two cells can be is 16", "16→15"),
        (9, "three cells hold at most twenty", "20→21"),
        (9, "four cells is twenty five at most", "25→26"),
        (9, "3 digits can't be more than 20", "20→21"),
        (9, "three cells make at least 10", "10→9"),
        (9, "20 needs at least four cells", "4→3"),
        (9, "15 needs three cells at the very least and 6 goes in", "3→2"),
        (9, "20 is no more than 4 cells", "4→5"),
        (9, "at most four cells for 20", "4→5"),
        (9, "you can't do 20 in fewer than four cells", "4→3"),
        (9, "20 is the most you get out of three cells", "20→21"),
        (6, "the most two cells can be is 8", "8→9"),
        (6, "two cells make at least 6", "6→5"),
        (16, "the most two cells can be is 28", "28→29"),
    ] {
        assert_eq!(found(side, text), expected, "{text}");
    }
}

#[test]
fn what_is_right_or_no_sum_is_let_pass() {
    for text in [
        "three, five and six make fourteen",
        "356 is 14",
        // This was looked at again and again once: the sum is said before its only term.
        "15 is what 348 make",
        "so that's five, two and three make five",
        "that's five two and three make five",
        "two and three make five and six make eleven",
        "two, three and seven make twelve, two goes here",
        "seven and eight and five make twenty two goes here",
        "35 minus 20 is 15",
        "so it's one or nine in both of these",
        "row three column five is seven",
        "one, two, three, four cells along",
        "if this were five and six it would make ten",
        "suppose two and seven make eight here, clearly not",
        "do three, five and six make thirteen",
        "three and five don't make nine",
        "three and five make more than six",
        "at 12:05 there are two threes and four fives",
        "two and seven are the nines",
        "we have one and nine and that's the clue 14",
        "that's two gone and five is here",
        "the most two cells can be is 15",
        "two cells hold at least 4",
        "two cells can't be more than 17",
        "20 needs at least three cells",
        "20 needs at least four cells because the eight is used",
        "20 is at most five cells",
        "two cells, 3 and 8, make 11",
        "these two cells are 5 and 7",
        "in the 20 there are at least 5 ways",
        "",
    ] {
        assert_eq!(found(9, text), "", "{text}");
    }
}

proptest::proptest! {
    #[test]
    fn nothing_said_is_too_strange(text in "((two|three|9|35|19|makes|is|plus|minus|at most|cells|no|[a-z]{1,4}|[0-9]{1,6})[ ,.]{0,2}){0,40}") {
        for side in [4, 9, 16] {
            found(side, &text);
        }
    }

    /// Every right sum passes, every one that is off by one is found.
    #[test]
    fn sums_are_checked(digits in proptest::sample::subsequence((2_u16..9).collect::<Vec<_>>(), 2..7), off in 0_u16..2) {
        let sum: u16 = digits.iter().sum();
        let list: Vec<String> = digits.iter().map(u16::to_string).collect();
        let text = format!("{} makes {}", list.join(" and "), sum + off);
        let expected = if off == 0 { String::new() } else { format!("{}→{sum}", sum + off) };
        proptest::prop_assert_eq!(found(9, &text), expected);
    }
}
