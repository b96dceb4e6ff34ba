//! Where a puzzle's page is on the web: as a short address to type, and as a code to be read by a camera.

use pack::{PackInfo, PuzzleId};
use qrcode::{EcLevel, QrCode};
use typst::foundations::{Bytes, Dict, dict};

/// An address that takes a finer code than this is only printed: a camera would not read it at the size there is.
const MOST_MODULES: usize = 49;

/// The address of the puzzle's page and its code, an SVG picture. None if the pack does not say where its site will be.
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
        "code" => code.as_ref().map(|it| Bytes::from_string(picture(it))),
    })
}

/// The code as one path: thousands of squares would take the typesetter longer than the rest of the booklet.
fn picture(code: &QrCode) -> String {
    let width = code.width();
    let path: String = stretches(code).into_iter().map(|(x, y, n)| format!("M{x} {y}h{n}v1h-{n}z")).collect();
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {width}\"><path d=\"{path}\" shape-rendering=\"crispEdges\"/></svg>"
    )
}

/// The dark stretches: where each begins, across and down, and how long it is.
fn stretches(code: &QrCode) -> Vec<(usize, usize, usize)> {
    let modules = code.to_colors();
    let mut stretches = Vec::new();
    for (y, row) in modules.chunks(code.width()).enumerate() {
        let mut x = 0;
        for stretch in row.chunk_by(|a, b| a == b) {
            if stretch[0] == qrcode::Color::Dark {
                stretches.push((x, y, stretch.len()));
            }
            x += stretch.len();
        }
    }
    stretches
}

#[cfg(test)]
mod tests {
    use typst::foundations::{IntoValue, Value};

    use super::*;

    /// ISO/IEC 18004, 6.3.3: a finder pattern of 7 by 7 modules in three of the corners.
    #[test]
    fn the_code_has_its_finder_patterns() {
        let info = PackInfo { base_url: Some("https://example.org/pack".to_owned()), ..PackInfo::default() };
        let dict = of_page(&info, &PuzzleId::new("first-light").unwrap()).unwrap();
        assert_eq!(dict.get("short").unwrap(), &"example.org/pack/puzzles/first-light.html".into_value());
        assert!(dict.get("code").is_ok_and(|it| matches!(it, Value::Bytes(_))));
        let code = QrCode::with_error_correction_level("https://example.org/pack", EcLevel::M).unwrap();
        let (n, stretches) = (code.width(), stretches(&code));
        for (x, y) in [(0, 0), (0, 6), (n - 7, 0), (n - 7, 6), (0, n - 7), (0, n - 1)] {
            assert!(stretches.contains(&(x, y, 7)), "{x} {y}");
        }
        assert!(of_page(&PackInfo::default(), &PuzzleId::new("a").unwrap()).is_none());
    }
}
