//! Texts from a pack's files, made safe to stand in a page.
//!
//! Markup is escaped by `maud`. What is left are characters that act without being seen: controls
//! become U+FFFD; those that turn the direction of text are taken out, because one that is never ended
//! reaches beyond any element; and each text stands in an element of its own direction.

use maud::{Markup, html};

/// A text of one line, inside a sentence.
pub fn text(it: &str) -> Markup {
    html! { bdi { (bare(it)) } }
}

/// A message of one line: what it quotes between backticks stands as code, and a full stop ends it
/// unless it ends itself.
pub fn sentence(it: &str) -> Markup {
    let parts: Vec<&str> = it.split('`').collect();
    // An odd number of backticks quotes nothing that could be told.
    let is_paired = parts.len() % 2 == 1;
    html! {
        @if is_paired {
            @for (at, part) in parts.iter().enumerate() {
                @if at % 2 == 1 { code { (text(part)) } } @else if !part.is_empty() { (text(part)) }
            }
        } @else {
            (text(it))
        }
        @if !it.ends_with(['.', '?', '!']) { "." }
    }
}

/// A text that may have several lines, as a paragraph each.
pub fn paragraphs(it: &str) -> Markup {
    html! {
        @for line in it.lines().filter(|it| !it.trim().is_empty()) {
            p dir="auto" { (bare(line.trim())) }
        }
    }
}

/// A text where no element can stand, as in the title of the window or the name of a picture.
pub fn bare(it: &str) -> String {
    let turns = |it: &char| matches!(it, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let shown = |it: char| match it {
        '\t' | '\n' => ' ',
        // HTML has no use for these, and a reader of the page would stumble over them.
        '\u{fdd0}'..='\u{fdef}' => '\u{fffd}',
        it if it.is_control() || u32::from(it) & 0xfffe == 0xfffe => '\u{fffd}',
        it => it,
    };
    it.chars().filter(|it| !turns(it)).map(shown).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn unseen_characters_do_not_act() {
        assert_eq!(text("\u{202e}a\u{2067}").into_string(), "<bdi>a</bdi>");
        assert_eq!(text("a\u{0}b\u{ffff}<i>").into_string(), "<bdi>a\u{fffd}b\u{fffd}&lt;i&gt;</bdi>");
        assert_eq!(bare("\u{202e}abc\u{2066}\n"), "abc ");
        assert_eq!(paragraphs("a\n\n b \n").into_string(), r#"<p dir="auto">a</p><p dir="auto">b</p>"#);
    }
}
