//! A board to type on: a field for each cell and each clue.

use maud::{Markup, html};
use page::bare;

use crate::typed::TypedBoard;
use grid::Size;

/// The board as a grid of fields (W3C, ARIA Authoring Practices, "Grid"): one is in the tab order, the script moves between
/// them with the arrows. Clues of one rule only, the first that has room for some.
pub(super) fn board(title: &str, size: Size, board: &TypedBoard) -> Markup {
    let side = usize::from(size.side());
    let rule = board.clues.iter().next();
    let shown = |it: Option<u16>| it.map(|it| it.to_string()).unwrap_or_default();
    let digit = |it: u8| if it == 0 { String::new() } else { it.to_string() };
    let edge = |at: usize, width: u8| (at + 1).is_multiple_of(usize::from(width)) && at + 1 < side;
    let most = if side > 9 { 2 } else { 1 };
    html! {
        div class={ "typed side-" (side) } role="grid" data-side=(side) data-rule=[rule.map(|it| it.0)]
            aria-label={ (bare(title)) ": board to type on, " (side) " rows of " (side) " cells" } {
            @if let Some((name, clues)) = rule {
                div.row role="row" {
                    span.corner role="gridcell" aria-label="no clue here" {}
                    @for (at, clue) in clues.columns.iter().enumerate() {
                        (clue_field("columnheader", &format!("{name} clue of column {}", at + 1), side + at, &shown(*clue)))
                    }
                }
            }
            @for row in 0..side {
                div.row role="row" {
                    @if let Some((name, clues)) = rule {
                        @let clue = clues.rows.get(row).copied().flatten();
                        (clue_field("rowheader", &format!("{name} clue of row {}", row + 1), row, &shown(clue)))
                    }
                    @for column in 0..side {
                        @let at = row * side + column;
                        @let edges = [("right", edge(column, size.box_width())), ("below", edge(row, size.box_height()))];
                        @let edges: Vec<&str> = edges.iter().filter(|it| it.1).map(|it| it.0).collect();
                        div class={ "cell " (edges.join(" ")) } role="gridcell" {
                            input data-cell=(at) tabindex=(if at == 0 { "0" } else { "-1" }) maxlength=(most + 1)
                                inputmode="numeric" autocomplete="off" spellcheck="false"
                                aria-label={ "row " (row + 1) " column " (column + 1) }
                                value=(digit(board.givens.get(at).copied().unwrap_or_default()));
                        }
                    }
                }
            }
        }
    }
}

fn clue_field(role: &str, name: &str, line: usize, value: &str) -> Markup {
    html! {
        div.clue role=(role) {
            input data-line=(line) tabindex="-1" maxlength="3" inputmode="numeric" autocomplete="off" spellcheck="false"
                aria-label=(name) value=(value);
        }
    }
}
