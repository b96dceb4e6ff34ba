//! A form to ask about one cell: why it is so, and whether somebody who says so is right.

use maud::{Markup, html};
use rulebook::Puzzle;

/// The form, and where the answer goes. The script asks and tells.
pub(super) fn asking(puzzle: &Puzzle, n_steps: usize) -> Markup {
    let size = puzzle.size();
    let (side, last) = (size.side(), format!("r{0}c{0}", size.side()));
    let has_crusts = !tell::cell_marks(puzzle).is_empty();
    html! {
        form #question data-side=(side) {
            div.fields {
                p {
                    label for="asked-cell" { "Cell, from r1c1 to " (last) }
                    input #asked-cell required pattern={ "[rR](1[0-6]|[1-9])[cC](1[0-6]|[1-9])" } maxlength="6" autocomplete="off" spellcheck="false";
                }
                p {
                    label for="asked-says" { "What is said of it" }
                    select #asked-says {
                        option value="is" { "It is the digit" }
                        option value="is-not" { "It is not the digit" }
                        @if has_crusts {
                            option value="crust" { "It is a crust" }
                            option value="filling" { "It is filling" }
                        }
                    }
                }
                p {
                    label for="asked-digit" { "Digit; for “why?” none is needed" }
                    input #asked-digit type="number" min="1" max=(side) inputmode="numeric";
                }
                p {
                    label for="asked-after" { "Judged after step (0: as printed)" }
                    input #asked-after type="number" min="0" max=(n_steps) value="0" required inputmode="numeric";
                }
                p {
                    label for="asked-within" { "Has to follow in so many steps" }
                    input #asked-within type="number" min="1" max="500" value="12" required inputmode="numeric";
                }
            }
            p.actions {
                button name="ask" value="why" { "Why is it so?" }
                button name="ask" value="judge" { "Is it so, and does it follow?" }
            }
            p { "A press on a cell of the walkthrough’s board writes that cell here, and the step that is shown there." }
        }
        div #answer role="region" aria-label="The answer" tabindex="-1" {}
    }
}
