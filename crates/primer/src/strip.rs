//! A row, column or box by itself, with what is known of each cell.

use grid::{Cell, CellSet, DigitSet, House};
use make::Drill;
use reason::View;
use rulebook::SANDWICH;

use crate::exercise::kept_back;

/// The cells of a house, or some that stand apart from the houses shown.
#[derive(Clone, Debug)]
pub struct Strip {
    /// The house; none for cells that stand apart.
    pub house: Option<House>,
    /// The sandwich clue beside it.
    pub clue: Option<u16>,
    /// Its cells in order.
    pub cells: Vec<StripCell>,
    /// How many stand side by side: all of a line, fewer of a box.
    pub across: usize,
}

/// A cell and what is known of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct StripCell {
    /// The cell.
    pub cell: Cell,
    /// The digits left to it: one if it is filled, none if the one that is left is asked for.
    pub digits: DigitSet,
    /// Whether it is known to be a crust.
    pub is_crust: bool,
    /// Whether it is known to be filling.
    pub is_filling: bool,
}

/// The kind of a cell whose digit is not known yet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum CellKind {
    /// It holds one of the two digits that its line's sum lies between.
    Crust,
    /// It holds none of them.
    Filling,
}

impl CellKind {
    /// `crust`, `filling`.
    pub fn name(self) -> &'static str {
        match self {
            CellKind::Crust => "crust",
            CellKind::Filling => "filling",
        }
    }
}

impl StripCell {
    /// The kind, if it is known and the digit is not.
    pub fn kind(&self) -> Option<CellKind> {
        match (self.digits.len(), self.is_crust, self.is_filling) {
            (1, ..) => None,
            (_, true, _) => Some(CellKind::Crust),
            (_, _, true) => Some(CellKind::Filling),
            _ => None,
        }
    }
}

impl Strip {
    /// `row 4`; `r4c7 and r6c7` of cells that stand apart.
    pub fn name(&self) -> String {
        let cells = || self.cells.iter().map(|it| it.cell.to_string()).collect::<Vec<_>>();
        self.house.map_or_else(|| tell::list(&cells()), |it| it.to_string())
    }

    /// The name as a heading: `Row 4`. Names of cells are written small wherever they stand.
    pub fn title(&self) -> String {
        if self.house.is_some() { tell::capital(&self.name()) } else { self.name() }
    }

    /// For those who do not see it: `Row 4 with clue 13. r4c1: crust, 1 and 9; r4c2: 5.`
    pub fn in_words(&self) -> String {
        let cells = self.cells.iter().map(|it| {
            let kind = it.kind().map(|it| format!("{}, ", it.name())).unwrap_or_default();
            let digits: Vec<String> = it.digits.iter().map(|it| it.to_string()).collect();
            let left = if digits.is_empty() { "asked for".to_owned() } else { tell::list(&digits) };
            format!("{}: {kind}{left}", it.cell)
        });
        let clue = self.clue.map(|it| format!(" with clue {it}")).unwrap_or_default();
        format!("{}{clue}. {}.", self.title(), cells.collect::<Vec<_>>().join("; "))
    }

    /// What a position knows of a house.
    pub(crate) fn of_position(view: &View, house: House) -> Strip {
        let cell = |cell: Cell| StripCell {
            cell,
            digits: view.candidates(cell),
            is_crust: view.is_crust(cell),
            is_filling: view.is_filling(cell),
        };
        let size = view.size();
        Strip {
            house: Some(house),
            clue: view.clue(&SANDWICH, house).map(|it| it.1),
            cells: size.cells_of(house).into_iter().map(cell).collect(),
            across: across(size, house),
        }
    }

    /// The houses of a drill, and the cells that its question names if they are in none of them and something is known of
    /// them.
    pub(crate) fn of_drill(drill: &Drill) -> Vec<Strip> {
        let size = drill.puzzle.size();
        let kept_back = kept_back(drill).map(|it| it.cell);
        let cells = |wanted: &[Cell]| -> Vec<StripCell> {
            let shown = wanted.iter().filter_map(|at| drill.cells.iter().find(|it| it.cell == *at));
            let cell = |it: &make::Shown| StripCell {
                cell: it.cell,
                digits: if kept_back == Some(it.cell) { DigitSet::EMPTY } else { it.digits },
                is_crust: it.is_crust,
                is_filling: it.is_filling,
            };
            shown.map(cell).collect()
        };
        let of_house = |it: &House| Strip {
            house: Some(*it),
            clue: clue(drill, *it),
            cells: cells(&size.cells_of(*it)),
            across: across(size, *it),
        };
        let apart = apart(drill);
        let is_shown = !apart.is_empty() && !is_untold(drill);
        let apart = is_shown.then(|| Strip {
            house: None,
            clue: None,
            across: apart.len(),
            cells: cells(&apart.iter().collect::<Vec<_>>()),
        });
        drill.houses.iter().map(of_house).chain(apart).collect()
    }
}

/// The cells that the question names and that are in none of the houses.
pub(crate) fn apart(drill: &Drill) -> CellSet {
    let within: CellSet = drill.houses.iter().flat_map(|it| drill.puzzle.size().cells_of(*it)).collect();
    drill.named() - within
}

/// Whether several cells stand apart and may hold anything: that is quicker said than shown.
pub(crate) fn is_untold(drill: &Drill) -> bool {
    let (size, apart) = (drill.puzzle.size(), apart(drill));
    let mut shown = drill.cells.iter().filter(|it| apart.contains(it.cell));
    apart.len() > 1 && shown.all(|it| it.digits == size.digits() && !it.is_crust && !it.is_filling)
}

fn across(size: grid::Size, house: House) -> usize {
    if house.is_line() { usize::from(size.side()) } else { usize::from(size.box_width()) }
}

/// The clue beside the house.
pub(crate) fn clue(drill: &Drill, house: House) -> Option<u16> {
    drill.puzzle.clues().iter().find(|it| it.line == house).map(|it| it.value)
}
