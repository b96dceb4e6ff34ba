//! Which techniques give drills: three of each are looked for.
//!
//! ```text
//! cargo run -p make --example drills
//! ```

#![allow(clippy::print_stdout, reason = "a measurement prints")]
#![allow(clippy::disallowed_methods, reason = "a measurement reads the clock")]

use std::time::Instant;

use grid::Size;
use make::{Brief, Clues, Kind, Look, Span, drill, usually_known};
use reason::TECHNIQUES;

fn main() {
    for technique in TECHNIQUES {
        let id = technique.id();
        let brief = Brief {
            size: Size::NINE,
            kind: Kind::Sandwich,
            known: usually_known(&[id]),
            teaches: Vec::new(),
            minutes: None,
            givens: Span { least: 0, most: 24 },
            clues: Clues::Needed,
            look: Look::Any,
        };
        let start = Instant::now();
        let found = drill(&brief, id, 1, (3, 96), &|| false).map_or(0, |it| it.len());
        println!("{id}: {found} drills, {:.2} s", start.elapsed().as_secs_f64());
    }
}
