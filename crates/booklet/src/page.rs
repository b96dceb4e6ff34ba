//! What is drawn on a page of a PDF file: glyphs and straight strokes, with their places.
//!
//! The page's own drawing instructions are carried out, as a printer does, and not its metadata, its
//! outline or the alternative texts in it. What a glyph stands for is what the file says for those who
//! copy text out of it.

use hayro_interpret::font::Glyph as Drawn;
use hayro_interpret::hayro_cmap::BfString;
use hayro_interpret::hayro_syntax::content::ops::TypedInstruction;
use hayro_interpret::hayro_syntax::object::{self, Object};
use hayro_interpret::hayro_syntax::page::Page;
use hayro_interpret::{
    BlendMode, ClipPath, Context, Device, GlyphDrawMode, Image, InterpreterCache, InterpreterSettings, Paint,
    PathDrawMode, SoftMask, TransformExt, interpret_page,
};
use kurbo::{Affine, BezPath, PathEl, Point, Rect};

use typeset::fonts::REPLACEMENT;

/// A glyph on a page. Lengths are in points, from the upper left corner of the page.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Glyph {
    /// The characters it stands for by itself.
    pub(crate) text: String,
    /// What it stands for in a run that the file gives a text as a whole (as it must where letters
    /// and accents share glyphs): the first glyph of the run has that text, the others nothing.
    pub(crate) in_run: Option<String>,
    /// Where it begins on the line it stands on.
    pub(crate) at: Point,
    /// How far the next glyph is from it.
    pub(crate) advance: f64,
    /// The type size.
    pub(crate) size: f64,
}

/// A straight stroke that runs across or down.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(crate) struct Stroke {
    /// The end further left or up.
    pub(crate) from: Point,
    /// The other end.
    pub(crate) to: Point,
    /// How wide it is.
    pub(crate) width: f64,
}

/// Everything on a page that reading needs, in the order in which it is drawn.
#[derive(Debug, Default)]
pub(crate) struct Marks {
    /// The glyphs that can be seen.
    pub(crate) glyphs: Vec<Glyph>,
    /// The strokes across and down.
    pub(crate) strokes: Vec<Stroke>,
    /// The texts of the page's marked runs yet to come, last first; most have none.
    runs: Vec<Option<String>>,
    /// The runs that the next glyph is in, outermost first.
    open: Vec<Option<String>>,
}

impl Marks {
    /// Carries out the drawing instructions of a page.
    pub(crate) fn of<'a>(page: &'a Page<'a>, cache: &InterpreterCache<'a>) -> Marks {
        let (width, height) = page.render_dimensions();
        let paper = Rect::new(0.0, 0.0, f64::from(width), f64::from(height));
        let from_above = page.initial_transform(true).to_kurbo();
        let mut context = Context::new(from_above, paper, cache, page.xref(), InterpreterSettings::default());
        let mut marks = Marks { runs: run_texts(page), ..Marks::default() };
        interpret_page(page, &mut context, &mut marks);
        marks
    }
}

impl<'a> Device<'a> for Marks {
    fn draw_glyph(
        &mut self,
        glyph: &Drawn<'a>,
        transform: Affine,
        glyph_transform: Affine,
        _: &Paint<'a>,
        mode: &GlyphDrawMode,
    ) {
        if matches!(mode, GlyphDrawMode::Invisible) {
            return;
        }
        let text = match glyph.as_unicode() {
            Some(BfString::Char(it)) => it.to_string(),
            Some(BfString::String(it)) => it,
            None => REPLACEMENT.to_string(),
        };
        let placed = transform * glyph_transform;
        // Outlines are a thousand units to the type size.
        let size = placed.determinant().abs().sqrt() * 1000.0;
        let advance = match glyph {
            Drawn::Outline(it) => f64::from(it.advance_width().unwrap_or(0.0)),
            Drawn::Type3(_) => 0.0,
        };
        let in_run = self.open.iter_mut().rev().flatten().next().map(std::mem::take);
        let at = placed * Point::ORIGIN;
        if in_run.is_none() && advance == 0.0 && text.chars().nth(1).is_some() {
            // An accent: the letter it stands on carries the text of both.
            return;
        }
        self.glyphs.push(Glyph { text, in_run, at, advance: advance * size / 1000.0, size });
    }

    fn draw_path(&mut self, path: &BezPath, transform: Affine, _: &Paint<'a>, mode: &PathDrawMode) {
        let PathDrawMode::Stroke(properties) = mode else { return };
        let [PathEl::MoveTo(from), PathEl::LineTo(to)] = path.elements() else { return };
        let (from, to) = (transform * *from, transform * *to);
        let is_straight = (from.x - to.x).abs() < 0.01 || (from.y - to.y).abs() < 0.01;
        if is_straight {
            let (from, to) = if (from.x, from.y) <= (to.x, to.y) { (from, to) } else { (to, from) };
            let width = f64::from(properties.line_width) * transform.determinant().abs().sqrt();
            self.strokes.push(Stroke { from, to, width });
        }
    }

    fn begin_marked_content(&mut self, _: &[u8], _: Option<i32>) {
        let text = self.runs.pop().flatten();
        self.open.push(text);
    }

    fn end_marked_content(&mut self) {
        self.open.pop();
    }

    fn set_soft_mask(&mut self, _: Option<SoftMask<'a>>) {}
    fn set_blend_mode(&mut self, _: BlendMode) {}
    fn push_clip_path(&mut self, _: &ClipPath) {}
    fn push_transparency_group(&mut self, _: f32, _: Option<SoftMask<'a>>, _: BlendMode) {}
    fn draw_image(&mut self, _: Image<'a, '_>, _: Affine) {}
    fn pop_clip_path(&mut self) {}
    fn pop_transparency_group(&mut self) {}
}

/// The texts (`ActualText`, ISO 32000-1 section 14.9.4) of the marked runs on a page, last first.
fn run_texts(page: &Page<'_>) -> Vec<Option<String>> {
    let mut texts = Vec::new();
    let mut instructions = page.typed_operations();
    while let Some(it) = instructions.next() {
        match it {
            TypedInstruction::BeginMarkedContent(_) => texts.push(None),
            TypedInstruction::BeginMarkedContentWithProperties(run) => texts.push(match run.1 {
                Object::Dict(it) => it.get::<object::String<'_>>(&b"ActualText"[..]).map(|it| decoded(&it)),
                _ => None,
            }),
            _ => {}
        }
    }
    texts.reverse();
    texts
}

/// A text string: UTF-16 if it begins with the mark of that, else one byte a character.
fn decoded(bytes: &[u8]) -> String {
    match bytes {
        [0xfe, 0xff, rest @ ..] => {
            let units = rest.chunks_exact(2).map(|it| u16::from_be_bytes([it[0], it[1]]));
            char::decode_utf16(units).map(|it| it.unwrap_or(REPLACEMENT)).collect()
        }
        _ => bytes.iter().copied().map(char::from).collect(),
    }
}
