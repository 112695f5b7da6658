//! The typefaces: one serif face for text, one for mathematics.
//!
//! They come with the typesetting libraries, are free to embed (SIL Open Font
//! License and GUST Font License), and are read once, when first asked for.

use std::sync::OnceLock;

use typst::foundations::Bytes;
use typst::text::{Font as Face, FontStyle};

/// The family of the text face.
pub(crate) const TEXT_FAMILY: &str = "Libertinus Serif";
/// The family of the face for formulas.
pub(crate) const MATH_FAMILY: &str = "New Computer Modern Math";

/// A font file that a server can hand out under a URL of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Font {
    /// The family, as a stylesheet names it.
    pub family: String,
    /// The CSS `font-style`: `normal` or `italic`.
    pub style: &'static str,
    /// The CSS `font-weight`, 100 to 900.
    pub weight: u16,
    /// A file name, safe in a URL, that tells this font from the others.
    pub file: String,
    /// The font file itself.
    pub bytes: &'static [u8],
    /// Its media type.
    pub mime: &'static str,
}

/// The fonts that [`stylesheet`](crate::stylesheet) asks for, to be served under
/// the URLs that [`font_faces`](crate::font_faces) names.
///
/// ```
/// assert!(paper::fonts().iter().any(|font| font.family == "Libertinus Serif" && font.style == "italic"));
/// ```
pub fn fonts() -> &'static [Font] {
    static FONTS: OnceLock<Vec<Font>> = OnceLock::new();
    FONTS.get_or_init(|| typst_assets::fonts().filter_map(served).collect())
}

fn served(bytes: &'static [u8]) -> Option<Font> {
    let face = Face::new(Bytes::new(bytes), 0)?;
    let info = face.info();
    let weight = info.variant.weight.to_number();
    // The page needs no semibold text, and of the mathematics only the book weight.
    let wanted = match info.family.as_str() {
        TEXT_FAMILY => matches!(weight, 400 | 700),
        MATH_FAMILY => (401..500).contains(&weight),
        _ => false,
    };
    if !wanted {
        return None;
    }
    let style = if info.variant.style == FontStyle::Normal { "normal" } else { "italic" };
    let family = info.family.clone();
    let slug = family.to_lowercase().replace(' ', "-");
    Some(Font {
        style,
        weight,
        file: format!("{slug}-{weight}-{style}.otf"),
        family,
        bytes,
        mime: "font/otf",
    })
}

/// Every face the typesetter may use, in a fixed order.
pub(crate) fn faces() -> &'static [Face] {
    static FACES: OnceLock<Vec<Face>> = OnceLock::new();
    FACES.get_or_init(|| {
        typst_assets::fonts().flat_map(|bytes| Face::iter(Bytes::new(bytes)).collect::<Vec<_>>()).collect()
    })
}

/// Whether some face has a glyph for the character.
pub(crate) fn drawable(c: char) -> bool {
    static DRAWN: OnceLock<Vec<u64>> = OnceLock::new();
    let drawn = DRAWN.get_or_init(|| {
        let mut bits = Vec::new();
        for face in faces() {
            for code in face.info().coverage.iter() {
                let word = code as usize / 64;
                if word >= bits.len() {
                    bits.resize(word + 1, 0);
                }
                if let Some(bits) = bits.get_mut(word) {
                    *bits |= 1u64 << (code % 64);
                }
            }
        }
        bits
    });
    let code = c as u32;
    drawn.get(code as usize / 64).is_some_and(|bits| bits >> (code % 64) & 1 == 1)
}

/// Text that can be drawn: a character without a glyph is named by its code
/// point, `[U+1F686]`, rather than lost; selectors of a glyph's form are dropped.
pub(crate) fn drawable_text(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\n' | '\t' => out.push(c),
            '\u{FE00}'..='\u{FE0F}' | '\u{E0100}'..='\u{E01EF}' => {}
            '\u{E000}'..='\u{F8FF}' | '\u{F0000}'.. => name(c, &mut out),
            c if drawable(c) => out.push(c),
            c => name(c, &mut out),
        }
    }
    out
}

fn name(c: char, out: &mut String) {
    out.push_str(&format!("[U+{:04X}]", c as u32));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_gets_four_text_faces_and_one_for_formulas() {
        let served: Vec<&str> = fonts().iter().map(|font| font.file.as_str()).collect();
        insta::assert_debug_snapshot!(served, @r#"
[
    "libertinus-serif-400-normal.otf",
    "libertinus-serif-700-normal.otf",
    "libertinus-serif-400-italic.otf",
    "libertinus-serif-700-italic.otf",
    "new-computer-modern-math-450-normal.otf",
]
"#);
        // OpenType with PostScript outlines begins with this tag (OpenType specification, "Organization of an OpenType Font").
        assert!(fonts().iter().all(|font| font.bytes.starts_with(b"OTTO")));
    }

    #[test]
    fn trade_letters_can_be_drawn_and_others_are_named() {
        assert_eq!(drawable_text("μ ≤ ½, 3 m s⁻²"), "μ ≤ ½, 3 m s⁻²");
        assert_eq!(drawable_text("a🚆b"), "a[U+1F686]b");
    }
}
