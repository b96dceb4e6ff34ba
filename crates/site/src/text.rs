//! Text from the pack's files, made safe to stand in a page.
//!
//! Markup is escaped by `maud`. What is left are characters that act without being seen: controls
//! become U+FFFD, and each text stands in an element of its own direction, which also ends whatever
//! the text began.

use maud::{Markup, html};

/// A text of one line, inside a sentence.
pub(crate) fn text(it: &str) -> Markup {
    html! { bdi { (visible(it)) } }
}

/// A text where no element can stand, as in the title of the window or the name of a picture: what
/// would turn the direction of the rest is taken out.
pub(crate) fn bare(it: &str) -> String {
    let turns =
        |it: &char| matches!(it, '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    visible(it).chars().filter(|it| !turns(it)).collect()
}

/// The text as a page shows it.
pub(crate) fn visible(it: &str) -> String {
    let shown = |it: char| match it {
        '\t' | '\n' => ' ',
        // HTML has no use for these, and a reader of the page would stumble over them.
        it if it.is_control() || (u32::from(it) & 0xfffe) == 0xfffe => '\u{fffd}',
        it if ('\u{fdd0}'..='\u{fdef}').contains(&it) => '\u{fffd}',
        it => it,
    };
    it.chars().map(shown).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unseen_characters_do_not_act() {
        assert_eq!(text("a\u{0}b\u{ffff}<i>").into_string(), "<bdi>a\u{fffd}b\u{fffd}&lt;i&gt;</bdi>");
        assert_eq!(bare("\u{202e}abc\u{2066}\n"), "abc ");
    }
}
