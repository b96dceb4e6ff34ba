//! Boards made of characters.

use grid::{CellSet, Digit, Grid};

/// Two grids of one size beside each other, a row a line; a `*` follows the digit of each marked cell.
pub(crate) fn side_by_side(left: &Grid, right: &Grid, marked: CellSet) -> String {
    let lines = lines(left, marked).into_iter().zip(lines(right, marked));
    lines.map(|(left, right)| format!("{left}    {right}").trim_end().to_owned() + "\n").collect()
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
}
