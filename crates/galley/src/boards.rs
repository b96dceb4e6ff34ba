//! Boards made of characters.

use grid::{Cell, CellSet, Digit, Grid, House, HouseKind};
use rulebook::Puzzle;

/// Two grids of one size beside each other, a row a line; a `*` follows the digit of each marked cell.
pub(crate) fn side_by_side(left: &Grid, right: &Grid, marked: CellSet) -> String {
    let lines = lines(left, marked).into_iter().zip(lines(right, marked));
    lines.map(|(left, right)| format!("{left}    {right}").trim_end().to_owned() + "\n").collect()
}

/// What is known of a board, and what is to be pointed at.
#[derive(Clone, Debug)]
pub(crate) struct Marks {
    /// The digits.
    pub(crate) board: Grid,
    /// The cells known to be crusts.
    pub(crate) crusts: CellSet,
    /// The cells known to be filling.
    pub(crate) filling: CellSet,
    /// The cells to be pointed at.
    pub(crate) marked: CellSet,
}

impl Marks {
    /// `7`, `#` for a crust and `o` for filling whose digit is not known, `.` where nothing is; a `*` follows a
    /// cell that is pointed at.
    pub(crate) fn cell(&self, cell: Cell) -> String {
        let known = match self.board.get(cell) {
            Some(digit) => digit.to_char(),
            None if self.crusts.contains(cell) => '#',
            None if self.filling.contains(cell) => 'o',
            None => '.',
        };
        format!("{known}{}", if self.marked.contains(cell) { '*' } else { ' ' })
    }
}

/// The board with the columns' clues above and the rows' before their lines.
pub(crate) fn with_clues(puzzle: &Puzzle, marks: &Marks) -> String {
    let size = puzzle.size();
    let clue = |line: Option<House>| {
        let clue = puzzle.clues().iter().find(|it| Some(it.line) == line);
        clue.map_or(String::new(), |it| it.value.to_string())
    };
    let boxes = |texts: Vec<String>, between: &str| {
        let width = usize::from(size.box_width());
        texts.chunks(width).map(<[String]>::concat).collect::<Vec<_>>().join(between)
    };
    let across = || 1..=size.side();
    let mut lines = Vec::new();
    if !puzzle.clues().is_empty() {
        let sums = across().map(|it| format!("{:>3} ", clue(size.house(HouseKind::Column, it))));
        lines.push(format!("    {}", boxes(sums.collect(), "  ")));
    }
    for row in across() {
        let cells = across().filter_map(|column| size.cell(row, column));
        let cells = cells.map(|it| format!("  {}", marks.cell(it)));
        let before = match puzzle.clues().is_empty() {
            true => String::new(),
            false => format!("{:>3} ", clue(size.house(HouseKind::Row, row))),
        };
        lines.push(format!("{before}{}", boxes(cells.collect(), " |")));
        if row % size.box_height() == 0 && row != size.side() {
            let rule = boxes(across().map(|_| "----".to_owned()).collect(), "-+");
            lines.push(format!("{}{rule}", " ".repeat(before.len())));
        }
    }
    lines.iter().map(|it| format!("{}\n", it.trim_end())).collect()
}

/// The rows, with lines between the boxes; all are equally long.
fn lines(grid: &Grid, marked: CellSet) -> Vec<String> {
    let size = grid.size();
    let cell = |row, column| {
        let digit = size.cell(row, column).and_then(|it| grid.get(it)).map_or('.', Digit::to_char);
        let mark = if size.cell(row, column).is_some_and(|it| marked.contains(it)) { '*' } else { ' ' };
        format!("{digit}{mark}")
    };
    let mut lines = Vec::new();
    for row in 1..=size.side() {
        let cells: Vec<String> = (1..=size.side()).map(|column| cell(row, column)).collect();
        let boxes: Vec<String> =
            cells.chunks(usize::from(size.box_width())).map(<[String]>::concat).collect();
        lines.push(boxes.join("| "));
        if row % size.box_height() == 0 && row != size.side() {
            let rule: Vec<String> = boxes.iter().map(|it| "-".repeat(it.len())).collect();
            // After the last box there is no line that a dash would lead to.
            let rule = rule.join("+-");
            lines.push(format!("{} ", &rule[..rule.len() - 1]));
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn boxes_of_every_shape_are_parted() {
        let six = Grid::from_line(&"123456".repeat(6)).unwrap();
        let marked = [six.size().cell(1, 2).unwrap(), six.size().cell(3, 6).unwrap()].into_iter().collect();
        let drawn = side_by_side(&six, &six, marked);
        let first: Vec<&str> = drawn.lines().map(|it| it.split("    ").next().unwrap()).collect();
        assert_eq!(first[..3], ["1 2*3 | 4 5 6", "1 2 3 | 4 5 6", "------+------"]);
        assert_eq!(drawn.lines().nth(3).unwrap(), "1 2 3 | 4 5 6*    1 2 3 | 4 5 6*");
        assert_eq!(drawn.lines().count(), 8);
    }

    #[test]
    fn clues_stand_beside_their_lines() {
        let size = grid::Size::of_side(4).unwrap();
        let at = |row, column| size.cell(row, column).unwrap();
        let line = |kind, number| size.house(kind, number).unwrap();
        let clue = |line, value| rulebook::Clue { rule: &rulebook::SANDWICH, line, value };
        let clues = [clue(line(HouseKind::Row, 2), 5), clue(line(HouseKind::Column, 3), 0)];
        let puzzle = Puzzle::new(Grid::empty(size), clues);
        let marks = Marks {
            board: Grid::empty(size).with(at(1, 1), size.digit(3)),
            crusts: [at(2, 1), at(2, 4)].into_iter().collect(),
            filling: [at(2, 2)].into_iter().collect(),
            marked: [at(2, 2)].into_iter().collect(),
        };
        let drawn = [
            "                0",
            "      3   .  |  .   .",
            "  5   #   o* |  .   #",
            "    ---------+--------",
            "      .   .  |  .   .",
            "      .   .  |  .   .",
        ];
        assert_eq!(with_clues(&puzzle, &marks).lines().collect::<Vec<_>>(), drawn);
    }
}
