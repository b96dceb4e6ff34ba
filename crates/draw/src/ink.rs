//! The colours, by what they are for, and the style sheet that swaps them for dark and for print.
//!
//! Blue is #0072B2 on light paper and sky blue #56B4E9 on dark, both from M. Okabe and K. Ito's
//! colour-vision-safe set; `pencil` is the same hue, darker or lighter, so that writing also reads on
//! a filled cell. Contrast is computed in `tests/colours.rs`.

/// What a colour is for.
///
/// Each is a custom property of [`STYLE`] by the same name, and two classes, one for areas and one
/// for lines.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Tone {
    /// The ground.
    Paper,
    /// What is printed.
    Ink,
    /// What is written on it: solved digits, candidates, strikes.
    Pencil,
    /// Marks that are not writing: hatching, outlines, bars, the curve.
    Blue,
    /// A filled cell.
    Tint,
    /// What is set aside: rings, spent clues, removed candidates, labels.
    Grey,
    /// The lines between cells.
    Rule,
}

impl Tone {
    /// Attributes for an area or a text of this colour.
    pub(crate) fn fill(self) -> String {
        format!(r#"class="fill-{}" fill="{}""#, self.name(), self.light())
    }

    /// Attributes for a line of this colour and that width.
    pub(crate) fn line(self, width: f64) -> String {
        let width = crate::svg::Num(width);
        format!(
            r#"class="line-{}" fill="none" stroke="{}" stroke-width="{width}""#,
            self.name(),
            self.light()
        )
    }

    fn name(self) -> &'static str {
        match self {
            Tone::Paper => "paper",
            Tone::Ink => "ink",
            Tone::Pencil => "pencil",
            Tone::Blue => "blue",
            Tone::Tint => "tint",
            Tone::Grey => "grey",
            Tone::Rule => "rule",
        }
    }

    /// The colour on light paper; the same as in [`STYLE`].
    fn light(self) -> &'static str {
        match self {
            Tone::Paper => "#fcfaf5",
            Tone::Ink => "#1b1b1b",
            Tone::Pencil => "#00578f",
            Tone::Blue => "#0072b2",
            Tone::Tint => "#c9e2f1",
            Tone::Grey => "#5e5e5a",
            Tone::Rule => "#8c8a84",
        }
    }
}

/// The style sheet of the pictures, to be put once on any page that holds some.
///
/// It defines the colours as custom properties of the page (`--paper`, `--ink`, `--pencil`, `--blue`,
/// `--tint`, `--grey`, `--rule`), which the page may use too, for light, for dark
/// (`prefers-color-scheme`) and for print; and lets pictures shrink with narrow pages. It contains
/// nothing that would need escaping in HTML or XML.
pub const STYLE: &str = "\
:root {
  color-scheme: light dark;
  --paper: #fcfaf5;
  --ink: #1b1b1b;
  --pencil: #00578f;
  --blue: #0072b2;
  --tint: #c9e2f1;
  --grey: #5e5e5a;
  --rule: #8c8a84;
}
@media (prefers-color-scheme: dark) {
  :root {
    --paper: #17181b;
    --ink: #e4e0d7;
    --pencil: #8fcbf0;
    --blue: #56b4e9;
    --tint: #1f4259;
    --grey: #b0aea7;
    --rule: #72737a;
  }
}
@media print {
  :root {
    color-scheme: light;
    --paper: #ffffff;
    --ink: #000000;
    --pencil: #00578f;
    --blue: #0072b2;
    --tint: #c9e2f1;
    --grey: #555555;
    --rule: #808080;
  }
}
.galley-picture { max-width: 100%; height: auto; forced-color-adjust: none; }
.galley-picture text { font-variant-numeric: lining-nums tabular-nums; }
.galley-picture .fill-paper { fill: var(--paper); }
.galley-picture .fill-ink { fill: var(--ink); }
.galley-picture .fill-pencil { fill: var(--pencil); }
.galley-picture .fill-blue { fill: var(--blue); }
.galley-picture .fill-tint { fill: var(--tint); }
.galley-picture .fill-grey { fill: var(--grey); }
.galley-picture .fill-rule { fill: var(--rule); }
.galley-picture .line-paper { stroke: var(--paper); }
.galley-picture .line-ink { stroke: var(--ink); }
.galley-picture .line-pencil { stroke: var(--pencil); }
.galley-picture .line-blue { stroke: var(--blue); }
.galley-picture .line-tint { stroke: var(--tint); }
.galley-picture .line-grey { stroke: var(--grey); }
.galley-picture .line-rule { stroke: var(--rule); }
";

/// One of this crate's pictures as a file of its own, with [`STYLE`] inside.
///
/// A text that has no tag at all comes back as it is.
pub fn standalone(svg: &str) -> String {
    // Attribute values have their `>` escaped, so the first one ends the opening tag.
    let Some(end) = svg.find('>') else { return svg.to_owned() };
    let (open, rest) = svg.split_at(end + 1);
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{open}<style>\n{STYLE}</style>{rest}\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn attributes_repeat_the_light_half_of_the_style_sheet() {
        let light = STYLE.split("@media").next().unwrap();
        for tone in [Tone::Paper, Tone::Ink, Tone::Pencil, Tone::Blue, Tone::Tint, Tone::Grey, Tone::Rule] {
            let name = tone.name();
            assert!(light.contains(&format!("--{name}: {};", tone.light())), "{tone:?}");
            assert!(STYLE.contains(&format!(".fill-{name} {{ fill: var(--{name}); }}")), "{tone:?}");
            assert!(STYLE.contains(&format!(".line-{name} {{ stroke: var(--{name}); }}")), "{tone:?}");
        }
        assert!(!STYLE.contains(['<', '&']));
    }
}
