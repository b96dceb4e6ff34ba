//! Documents to print: a template and values go in, a tagged PDF comes out.
//!
//! [`typeset()`] sets a template with typst. The typesetter sees nothing but the template, what all templates share
//! (`board.typ`: colours, type sizes, boards), the [`fonts`], which come with the program, and the values it is given; so
//! equal values give equal bytes. [`board`] makes boards into such values, and [`Printer`] texts of a pack, which may hold
//! anything.

pub mod board;
pub mod fonts;
mod printed;
mod world;

pub use printed::{Alteration, LONGEST_NAME, LONGEST_TEXT, Printer, joins};
pub use world::{Writing, typeset};

#[cfg(test)]
mod tests {
    /// The booklet's colours are those that pictures have on printed pages.
    #[test]
    fn colours_are_those_of_the_pictures() {
        let template = include_str!("board.typ");
        let print = draw::STYLE.split("@media print").nth(1).unwrap();
        for (name, here) in [("pencil", "pencil"), ("blue", "blue"), ("grey", "grey"), ("rule", "faint")] {
            let colour = print.split(&format!("--{name}: ")).nth(1).unwrap().split(';').next().unwrap();
            assert!(
                template
                    .contains(&format!("#let {here} = if in-black {{ ink }} else {{ rgb(\"{colour}\") }}")),
                "{name} is {colour}"
            );
        }
    }
}
