//! The colours of the style sheet keep their promises of contrast.
//!
//! Contrast is the ratio of relative luminances as WCAG 2.2 defines both (W3C, section 6), which asks
//! for 4.5 for text and 3 for other things that carry meaning (1.4.3, 1.4.11).

use std::collections::BTreeMap;

use draw::STYLE;

/// Red, green and blue of `#rrggbb`.
fn channels(colour: &str) -> [f64; 3] {
    let digits = colour.strip_prefix('#').expect("a hexadecimal colour");
    assert_eq!(digits.len(), 6, "{colour}");
    [0, 2, 4].map(|at| f64::from(u8::from_str_radix(&digits[at..at + 2], 16).expect("two digits")) / 255.0)
}

fn luminance(colour: &str) -> f64 {
    let linear = |it: f64| if it <= 0.04045 { it / 12.92 } else { ((it + 0.055) / 1.055).powf(2.4) };
    let [red, green, blue] = channels(colour).map(linear);
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

fn contrast(a: &str, b: &str) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The custom properties between two places of the style sheet.
fn properties(part: &str) -> BTreeMap<&str, &str> {
    let declarations = part.lines().filter_map(|it| it.trim().strip_prefix("--")?.split_once(": "));
    declarations.map(|(name, value)| (name, value.trim_end_matches(';'))).collect()
}

/// The colours for light, dark and print.
fn schemes() -> [(&'static str, BTreeMap<&'static str, &'static str>); 3] {
    let parts: Vec<&str> = STYLE.split("@media").collect();
    let [light, dark, print] = parts[..] else { panic!("light, dark and print, found {}", parts.len()) };
    assert!(dark.contains("prefers-color-scheme: dark") && print.contains(" print {"));
    [("light", properties(light)), ("dark", properties(dark)), ("print", properties(print))]
}

#[test]
fn contrast_is_computed_as_others_compute_it() {
    // Contrast on white of M. Okabe and K. Ito's colours, as `facts.md` (section 6) states it.
    let known = [
        ("#000000", 21.0),
        ("#0072B2", 5.19),
        ("#D55E00", 3.87),
        ("#009E73", 3.42),
        ("#CC79A7", 3.06),
        ("#56B4E9", 2.31),
    ];
    for (colour, expected) in known {
        assert!((contrast(colour, "#ffffff") - expected).abs() < 0.006, "{colour}");
    }
}

#[test]
fn marks_and_texts_stand_out_from_the_ground() {
    for (scheme, colours) in schemes() {
        assert_eq!(colours.len(), 7, "{scheme}: {colours:?}");
        // A text can stand on paper or on a filled cell; so can every mark but the lines of the grid,
        // which a filled cell replaces by a border in blue.
        let demands = [
            ("ink", "paper", 4.5),
            ("ink", "tint", 4.5),
            ("pencil", "paper", 4.5),
            ("pencil", "tint", 4.5),
            ("grey", "paper", 4.5),
            ("grey", "tint", 4.5),
            ("blue", "paper", 3.0),
            ("blue", "tint", 3.0),
            ("rule", "paper", 3.0),
        ];
        for (colour, ground, least) in demands {
            let found = contrast(colours[colour], colours[ground]);
            assert!(found >= least, "{scheme}: {colour} on {ground} has {found:.2}, needs {least}");
        }
    }
}

#[test]
fn the_blues_are_from_a_colour_vision_safe_set() {
    // M. Okabe and K. Ito: blue #0072B2, sky blue #56B4E9.
    let [(_, light), (_, dark), (_, print)] = schemes();
    assert_eq!([light["blue"], dark["blue"], print["blue"]], ["#0072b2", "#56b4e9", "#0072b2"]);
}

#[test]
fn print_overrides_dark() {
    let place = |it| STYLE.find(it).expect("a media rule");
    assert!(place("@media print") > place("@media (prefers-color-scheme: dark)"));
    assert_eq!(schemes()[2].1["paper"], "#ffffff");
}
