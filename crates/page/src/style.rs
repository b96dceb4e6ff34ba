//! The style of a printed sheet.

/// The colours of the boards, and the rules that all pages have in common.
pub fn style() -> String {
    [draw::STYLE, include_str!("page.css")].concat()
}
