//! Where a puzzle's page is on the web: as a short address to type, and as a code to be read by a camera.

use pack::{PackInfo, PuzzleId};
use qrcode::{EcLevel, QrCode};
use typst::foundations::{Array, Dict, IntoValue, Value, dict};

/// An address that takes a finer code than this is only printed: a camera would not read it at the size there is.
const MOST_MODULES: usize = 49;

/// The address of the puzzle's page and its code, row by row: where each stretch of dark modules begins, and how long it
/// is. None if the pack does not say where its site will be.
pub(crate) fn of_page(info: &PackInfo, id: &PuzzleId) -> Option<Dict> {
    let base =
        info.base_url.as_deref().filter(|it| it.starts_with("https://") || it.starts_with("http://"))?;
    let between = if base.ends_with('/') { "" } else { "/" };
    let address = format!("{base}{between}puzzles/{id}.html");
    let code = QrCode::with_error_correction_level(&address, EcLevel::M)
        .ok()
        .filter(|it| it.width() <= MOST_MODULES);
    let short = address.split_once("://").map_or(&address[..], |it| it.1);
    Some(dict! {
        "short" => short,
        "link" => &address[..],
        "rows" => code.as_ref().map(rows),
    })
}

/// The dark stretches of each row.
fn rows(code: &QrCode) -> Array {
    let width = code.width();
    let modules = code.to_colors();
    let row = |row: &[qrcode::Color]| -> Value {
        let mut stretches = Vec::new();
        let mut at = 0;
        for stretch in row.chunk_by(|a, b| a == b) {
            if stretch[0] == qrcode::Color::Dark {
                let stretch: Array =
                    [at as i64, stretch.len() as i64].map(IntoValue::into_value).into_iter().collect();
                stretches.push(Value::Array(stretch));
            }
            at += stretch.len();
        }
        Value::Array(stretches.into_iter().collect())
    };
    modules.chunks(width).map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO/IEC 18004, 6.3.3: a finder pattern of 7 by 7 modules in three of the corners.
    #[test]
    fn the_code_has_its_finder_patterns() {
        let info = PackInfo { base_url: Some("https://example.org/pack".to_owned()), ..PackInfo::default() };
        let dict = of_page(&info, &PuzzleId::new("first-light").unwrap()).unwrap();
        assert_eq!(dict.get("short").unwrap(), &"example.org/pack/puzzles/first-light.html".into_value());
        let Ok(Value::Array(rows)) = dict.get("rows") else { panic!("no code") };
        let n = rows.len() as i64;
        let seven = |at: i64| Value::Array([at, 7].map(IntoValue::into_value).into_iter().collect());
        for row in [&rows.as_slice()[0], &rows.as_slice()[6]] {
            let Value::Array(row) = row else { panic!() };
            assert!(row.contains(seven(0)) && row.contains(seven(n - 7)));
        }
        let Value::Array(last) = &rows.as_slice()[n as usize - 1] else { panic!() };
        assert!(last.contains(seven(0)));
        assert!(of_page(&PackInfo::default(), &PuzzleId::new("a").unwrap()).is_none());
    }
}
