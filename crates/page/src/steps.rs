//! Steps of a walkthrough on a page.

use maud::{Markup, html};

/// Cuts what stands in a row into stretches of about equal length, each at most `most` long, so that no
/// step is far from the board beside it.
pub fn stretches<T>(items: &[T], most: usize) -> impl Iterator<Item = &[T]> {
    let n_stretches = items.len().div_ceil(most).max(1);
    items.chunks(items.len().div_ceil(n_stretches).max(1))
}

/// What `tell` says of a step: a paragraph a line, the cases of a small argument set in by depth.
pub fn told(said: &str) -> Markup {
    html! {
        @for line in said.lines() {
            @match case_depth(line) {
                0 => { p { (line) } }
                1 => { p.case { (line) } }
                _ => { p.case.within { (line) } }
            }
        }
    }
}

/// How deep a line of a small argument lies: 1 for `Case 2.`, 2 for `Case 2.1.`, 0 for any other.
fn case_depth(line: &str) -> usize {
    let Some(label) = line.strip_prefix("Case ").and_then(|it| it.split(' ').next()) else { return 0 };
    label.split('.').filter(|it| it.parse::<usize>().is_ok()).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_are_about_equal() {
        for (n, most, expected) in
            [(0, 8, vec![]), (8, 8, vec![8]), (9, 8, vec![5, 4]), (17, 8, vec![6, 6, 5])]
        {
            let lengths: Vec<usize> = stretches(&vec![(); n], most).map(<[()]>::len).collect();
            assert_eq!(lengths, expected, "{n} steps");
        }
    }

    #[test]
    fn cases_are_set_in() {
        let html = told("Look.\nCase 1. One.\nCase 1.2. Two.\nCase closed.").into_string();
        assert_eq!(
            html,
            "<p>Look.</p><p class=\"case\">Case 1. One.</p><p class=\"case within\">Case 1.2. Two.</p>\
             <p>Case closed.</p>"
        );
    }
}
