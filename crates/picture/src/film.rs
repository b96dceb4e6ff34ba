//! A moving picture: an APNG, which every browser shows and every other program takes for its first picture.

use std::borrow::Cow;

use png::{BitDepth, ColorType, Compression, Encoder};

use crate::render::pixels;

/// A drawing and how long it is shown.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Still {
    /// The drawing, as SVG; all of a film have one shape.
    pub svg: String,
    /// How long it is shown, in milliseconds; at most a minute.
    pub milliseconds: u16,
}

/// The film that shows those drawings one after the other, once, so many pixels wide.
///
/// None if there are none, if one is no drawing or of another shape than the first, or if the film would be
/// larger than [`crate::png`] draws.
pub fn film(frames: &[Still], width: u32) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    let first = pixels(&frames.first()?.svg, width)?;
    let mut encoder = Encoder::new(&mut bytes, first.width(), first.height());
    encoder.set_color(ColorType::Rgb);
    encoder.set_depth(BitDepth::Eight);
    encoder.set_compression(Compression::Balanced);
    encoder.set_animated(u32::try_from(frames.len()).ok()?, 1).ok()?;
    encoder.set_frame_delay(frames[0].milliseconds, 1_000).ok()?;
    let mut writer = encoder.write_header().ok()?;
    for (at, frame) in frames.iter().enumerate() {
        let drawn = if at == 0 { Cow::Borrowed(&first) } else { Cow::Owned(pixels(&frame.svg, width)?) };
        if (drawn.width(), drawn.height()) != (first.width(), first.height()) {
            return None;
        }
        writer.set_frame_delay(frame.milliseconds, 1_000).ok()?;
        // The paper is opaque, so nothing is lost without transparency.
        let colours: Vec<u8> = drawn.data().chunks_exact(4).flat_map(|it| [it[0], it[1], it[2]]).collect();
        writer.write_image_data(&colours).ok()?;
    }
    writer.finish().ok()?;
    Some(bytes)
}
