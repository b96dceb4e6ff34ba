//! The style sheet adds no colour of its own, and the ones it uses for text can be read.
//!
//! Contrast is the ratio of relative luminances as WCAG 2.2 defines both (W3C, section 6); it asks for
//! 4.5 for text and 3 for what shows the focus (1.4.3, 1.4.11).

use std::collections::BTreeMap;

const CSS: &str = include_str!("../src/page.css");

fn luminance(colour: &str) -> f64 {
    let part = |at: usize| f64::from(u8::from_str_radix(&colour[at..at + 2], 16).unwrap()) / 255.0;
    let linear = |it: f64| if it <= 0.04045 { it / 12.92 } else { ((it + 0.055) / 1.055).powf(2.4) };
    let [red, green, blue] = [1, 3, 5].map(|it| linear(part(it)));
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

fn contrast(a: &str, b: &str) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The values of a property, wherever the style sheet sets it.
fn values<'a>(property: &str) -> Vec<&'a str> {
    let declarations = CSS.split(['{', ';', '}']).filter_map(|it| it.trim().split_once(':'));
    declarations.filter(|it| it.0.trim() == property).map(|it| it.1.trim()).collect()
}

#[test]
fn text_is_ink_pencil_or_grey_on_paper_and_can_be_read() {
    assert!(!CSS.contains('#'));
    assert!(!CSS.contains("rgb(") && !CSS.contains("hsl("));
    let colours = values("color");
    assert!(colours.len() > 3, "{colours:?}");
    for it in colours {
        assert!(matches!(it, "var(--ink)" | "var(--pencil)" | "var(--grey)" | "inherit"), "{it}");
    }
    for it in values("background") {
        assert_eq!(it, "var(--paper)");
    }
    assert_eq!(values("outline"), ["3px solid var(--blue)", "none"]);
    for scheme in draw::STYLE.split("@media") {
        let declarations = scheme.lines().filter_map(|it| it.trim().strip_prefix("--")?.split_once(": "));
        let colours: BTreeMap<&str, &str> =
            declarations.map(|it| (it.0, it.1.trim_end_matches(';'))).collect();
        for (name, least) in [("ink", 4.5), ("pencil", 4.5), ("grey", 4.5), ("blue", 3.0)] {
            let found = contrast(colours[name], colours["paper"]);
            assert!(found >= least, "{name} has {found:.2}");
        }
    }
    // From facts.md, section 6: Okabe and Ito's blue on white.
    assert!((contrast("#0072b2", "#ffffff") - 5.19).abs() < 0.006);
}
