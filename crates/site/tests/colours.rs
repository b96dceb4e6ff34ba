//! The site's style sheet adds no colour to those of `page`, whose contrast is computed there; and what is
//! pressed is large enough.

const CSS: &str = concat!(include_str!("../src/play.css"), include_str!("../src/site.css"));

/// The values of a property, wherever the style sheet sets it.
fn values<'a>(property: &str) -> Vec<&'a str> {
    let declarations = CSS.split(['{', ';', '}']).filter_map(|it| it.trim().split_once(':'));
    declarations.filter(|it| it.0.trim() == property).map(|it| it.1.trim()).collect()
}

#[test]
fn no_colour_is_added() {
    // The only `#` is that of an id, and `color-mix` thins a line that carries no meaning.
    assert!(CSS.lines().filter(|it| it.contains('#')).all(|it| it.starts_with("#puzzles h2")));
    assert!(!CSS.contains("rgb(") && !CSS.contains("hsl("));
    let colours = values("color");
    assert!(colours.len() > 3, "{colours:?}");
    for it in colours {
        assert!(matches!(it, "var(--ink)" | "var(--pencil)" | "var(--grey)" | "inherit"), "{it}");
    }
    // Writing is read on paper, on tint, and on what lies between them; `draw` computes the contrast of both ends.
    let tinted = "color-mix(in srgb, var(--tint) 45%, transparent)";
    let grounds = values("background").into_iter().filter(|it| !it.starts_with("repeating-linear-gradient("));
    assert!(
        grounds.clone().all(|it| [tinted, "var(--paper)", "none"].contains(&it)),
        "{:?}",
        values("background")
    );
}

#[test]
fn what_is_pressed_is_large_enough_for_a_finger() {
    // 2.75rem are 44 CSS pixels at the usual 16.
    let screen = CSS.split("@media").next().unwrap();
    let summary = screen.split("\nsummary {").nth(1).unwrap().split('}').next().unwrap();
    assert!(summary.contains("min-height: 2.75rem") && summary.contains("min-width: 2.75rem"), "{summary}");
}
